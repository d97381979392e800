import { type Field, fieldOf } from "./field.ts";
import { depthOf, type Problem } from "./problem.ts";

/**
 * Items on their way: where each lies, overlaps allowed, and how much each pair weighs.
 * One mutable block of flat arrays, because the search changes it millions of times a second.
 */
export interface Packing {
  readonly problem: Problem;
  readonly n: number;
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly bin: Int32Array;
  /** Sheets in use. */
  active: readonly number[];
  /** Where each sheet's room ends; a strip's end moves, and so does an offcut's edge. */
  readonly right: Float64Array;
  readonly top: Float64Array;
  /** Overlap times masses per pair, n a row, both halves filled; last column: obstacles. */
  readonly overlap: Float64Array;
  /** Weight per pair, likewise. */
  readonly weight: Float64Array;
  /** Of each item, relative to the mean: large items are the harder to move, so their overlaps count more. */
  readonly mass: Float64Array;
  /** Filled and read within one move. */
  readonly field: Field;
  /** Positions looked at so far: the search's own clock. */
  steps: number;
}

/** Depths up to this share of the largest item count as contact: float noise. */
const CONTACT = 1e-9;

export function packingOf(problem: Problem): Packing {
  const n = problem.items.length;
  const packing: Packing = {
    problem,
    n,
    shape: new Int32Array(n),
    x: new Float64Array(n),
    y: new Float64Array(n),
    bin: new Int32Array(n),
    active: problem.bins.map((_, k) => k),
    right: Float64Array.from(problem.bins, (bin) => bin.x1),
    top: Float64Array.from(problem.bins, (bin) => bin.y1),
    overlap: new Float64Array(n * (n + 1)),
    weight: new Float64Array(n * (n + 1)).fill(1),
    mass: massesOf(problem),
    field: fieldOf(n + 1 + Math.max(...problem.obstaclesOf.map((list) => list.length))),
    steps: 0,
  };
  for (let i = 0; i < n; i++) packing.shape[i] = problem.shapesOf[problem.items[i]!]![0]!;
  return packing;
}

/** Lays item i down and brings its overlaps up to date. */
export function lay(p: Packing, i: number, s: number, x: number, y: number, bin: number): void {
  p.shape[i] = s;
  p.x[i] = x;
  p.y[i] = y;
  p.bin[i] = bin;
  refresh(p, i);
}

export function refresh(p: Packing, i: number): void {
  const { n, problem, overlap, shape } = p;
  const contact = CONTACT * problem.extent;
  const [s, x, y, bin] = [shape[i]!, p.x[i]!, p.y[i]!, p.bin[i]!];
  for (let j = 0; j < n; j++) {
    if (j === i) continue;
    let depth = 0;
    if (p.bin[j] === bin) depth = depthOf(problem, shape[j]!, s, x - p.x[j]!, y - p.y[j]!);
    depth = depth <= contact ? 0 : overlapOf(depth) * p.mass[i]! * p.mass[j]!;
    overlap[i * (n + 1) + j] = depth;
    overlap[j * (n + 1) + i] = depth;
  }
  let depth = 0;
  for (const obstacle of problem.obstaclesOf[bin]!) depth += depthOf(problem, obstacle, s, x, y);
  overlap[i * (n + 1) + n] = depth <= contact ? 0 : overlapOf(depth) * p.mass[i]!;
}

/**
 * What a depth of overlap counts for. The root makes one deep overlap cheaper than several shallow ones of the same
 * sum, so that overlaps gather in few pairs and the others come free. Measured: half a point of density on strips.
 */
export function overlapOf(depth: number): number {
  return Math.sqrt(depth);
}

/**
 * How much an item's size counts, per item of a pair: (area / mean area) to the power of 3/8, by roots, which end in
 * the same digits on every engine.
 */
function massOf(share: number): number {
  const fourth = Math.sqrt(Math.sqrt(share));
  return fourth * Math.sqrt(fourth);
}

function massesOf(problem: Problem): Float64Array {
  const areas = problem.items.map((type) => problem.shapes[problem.shapesOf[type]![0]!]!.area);
  const mean = areas.reduce((sum, area) => sum + area, 0) / areas.length;
  return Float64Array.from(areas, (area) => massOf(area / mean));
}

/** Weighted overlap of one item as it lies. */
export function weighedItem(p: Packing, i: number): number {
  const row = i * (p.n + 1);
  let sum = 0;
  for (let j = 0; j <= p.n; j++) {
    const depth = p.overlap[row + j]!;
    if (depth > 0) sum += depth * p.weight[row + j]!;
  }
  return sum;
}

/** All overlaps together, unweighted. */
export function totalOverlap(p: Packing): number {
  const { n, overlap } = p;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const row = i * (n + 1);
    for (let j = 0; j < i; j++) sum += overlap[row + j]!;
    sum += overlap[row + n]!;
  }
  return sum;
}

/** How deep the deepest overlap is: masses and the root of `overlapOf` undone. */
export function deepestOverlap({ n, overlap, mass }: Packing): number {
  let deepest = 0;
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= n; j++) {
      const own = overlap[i * (n + 1) + j]! / (mass[i]! * (j < n ? mass[j]! : 1));
      if (own > deepest) deepest = own;
    }
  return deepest * deepest;
}

/** Where every item lies, to come back to. */
export interface Snapshot {
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly bin: Int32Array;
  readonly right: Float64Array;
  readonly top: Float64Array;
}

export function snapshot(p: Packing): Snapshot {
  return {
    shape: p.shape.slice(),
    x: p.x.slice(),
    y: p.y.slice(),
    bin: p.bin.slice(),
    right: p.right.slice(),
    top: p.top.slice(),
  };
}

export function restore(p: Packing, s: Snapshot): void {
  p.shape.set(s.shape);
  p.x.set(s.x);
  p.y.set(s.y);
  p.bin.set(s.bin);
  p.right.set(s.right);
  p.top.set(s.top);
  for (let i = 0; i < p.n; i++) refresh(p, i);
}
