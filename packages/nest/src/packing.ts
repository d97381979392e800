import type { Problem } from "./problem.ts";

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
  /** Room left to right; a strip's end moves. */
  readonly right: Float64Array;
  /** Depth of overlap per pair, n a row, both halves filled; last column: obstacles. */
  readonly overlap: Float64Array;
  /** Weight per pair, likewise. */
  readonly weight: Float64Array;
  /** Positions looked at so far: the search's own clock. */
  steps: number;
}

/** Depths up to this share of the largest item count as contact: float noise. */
export const CONTACT = 1e-9;

export function packingOf(problem: Problem): Packing {
  const n = problem.items.length;
  const packing: Packing = {
    problem,
    n,
    shape: new Int32Array(n),
    x: new Float64Array(n),
    y: new Float64Array(n),
    bin: new Int32Array(n),
    right: Float64Array.from(problem.bins, (bin) => bin.x1),
    overlap: new Float64Array(n * (n + 1)),
    weight: new Float64Array(n * (n + 1)).fill(1),
    steps: 0,
  };
  for (let i = 0; i < n; i++) packing.shape[i] = problem.shapesOf[problem.items[i]!]![0]!;
  return packing;
}

/**
 * Weighted depth of item i, were it shape s at x, y in this bin, over all other items.
 * Stops at `limit`: what is no better is of no interest.
 */
export function weigh(
  p: Packing,
  i: number,
  s: number,
  x: number,
  y: number,
  bin: number,
  limit: number,
): number {
  p.steps++;
  const { n, problem, weight, shape } = p;
  const row = i * (n + 1);
  let sum = 0;
  for (let j = 0; j < n; j++) {
    if (j === i || p.bin[j] !== bin) continue;
    const depth = problem.depth(shape[j]!, s, x - p.x[j]!, y - p.y[j]!);
    if (depth > 0) {
      sum += depth * weight[row + j]!;
      if (sum >= limit) return sum;
    }
  }
  for (const obstacle of problem.obstaclesOf[bin]!)
    sum += problem.depth(obstacle, s, x, y) * weight[row + n]!;
  return sum;
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
    if (p.bin[j] === bin) depth = problem.depth(shape[j]!, s, x - p.x[j]!, y - p.y[j]!);
    if (depth <= contact) depth = 0;
    overlap[i * (n + 1) + j] = depth;
    overlap[j * (n + 1) + i] = depth;
  }
  let depth = 0;
  for (const obstacle of problem.obstaclesOf[bin]!) depth += problem.depth(obstacle, s, x, y);
  overlap[i * (n + 1) + n] = depth <= contact ? 0 : depth;
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

/** Depth of all overlaps together, unweighted. */
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

/** Where every item lies, to come back to. */
export interface Snapshot {
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly bin: Int32Array;
  readonly right: Float64Array;
}

export function snapshot(p: Packing): Snapshot {
  return {
    shape: p.shape.slice(),
    x: p.x.slice(),
    y: p.y.slice(),
    bin: p.bin.slice(),
    right: p.right.slice(),
  };
}

export function restore(p: Packing, s: Snapshot): void {
  p.shape.set(s.shape);
  p.x.set(s.x);
  p.y.set(s.y);
  p.bin.set(s.bin);
  p.right.set(s.right);
  for (let i = 0; i < p.n; i++) refresh(p, i);
}
