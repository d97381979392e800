import { APART, EDGE, INSIDE } from "./noFitCells.ts";
import { overlapOf, type Packing } from "./packing.ts";
import { outsideDistance } from "./sums.ts";
import { HEAD } from "./tables.ts";

/**
 * What one item in one of its shapes meets on one sheet: every other item near it, with its no-fit table and weight.
 * Built once per move, read at every position tried.
 */
export interface Field {
  readonly near: Float64Array;
  /** Per neighbour its pair of shapes. */
  readonly pair: Int32Array;
  /** Per column, neighbours in the order in which they are asked: those that settle a position come to the front. */
  readonly order: Int32Array;
  /** How many there are in each column. */
  readonly counts: Int32Array;
  /** The question and its answer: x, y, limit, weight. Numbers handed over as such would be put on the heap each time. */
  readonly probe: Float64Array;
  columns: number;
  fromX: number;
  perX: number;
}

/**
 * Numbers per neighbour: column of its table as `x·a + b`, row as `y·c + d`, columns, rows, first cell (below 0: its
 * table is not made yet, and a single cell stands for it), weight, then x and y of where it stands, gap, sign.
 */
const STRIDE = 12;

const MOST_COLUMNS = 16;

export function fieldOf(n: number): Field {
  return {
    near: new Float64Array(STRIDE * n),
    pair: new Int32Array(n),
    order: new Int32Array(MOST_COLUMNS * n),
    counts: new Int32Array(MOST_COLUMNS),
    probe: new Float64Array(4),
    columns: 1,
    fromX: 0,
    perX: 0,
  };
}

/** Fills the field with what item i as shape s meets with its origin within x0, y0, x1, y1 of a sheet. */
export function gather(
  p: Packing,
  i: number,
  s: number,
  bin: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): void {
  const { n, weight, shape, mass, problem, field } = p;
  const { boxes, widestGap } = problem;
  const row = i * (n + 1);
  // How far the item's box reaches from its origin.
  const own = 4 * s;
  const right = x1 + boxes[own + 2]! + widestGap;
  const left = x0 + boxes[own]! - widestGap;
  const top = y1 + boxes[own + 3]! + widestGap;
  const bottom = y0 + boxes[own + 1]! - widestGap;
  let count = 0;
  for (let j = 0; j < n; j++) {
    if (j === i || p.bin[j] !== bin) continue;
    const other = shape[j]!;
    const x = p.x[j]!;
    if (x + boxes[4 * other]! >= right || x + boxes[4 * other + 2]! <= left) continue;
    const y = p.y[j]!;
    if (y + boxes[4 * other + 1]! >= top || y + boxes[4 * other + 3]! <= bottom) continue;
    enter(p, count++, other, s, x, y, weight[row + j]! * mass[i]! * mass[j]!);
  }
  for (const obstacle of problem.obstaclesOf[bin]!)
    enter(p, count++, obstacle, s, 0, 0, weight[row + n]! * mass[i]!);
  sortIntoColumns(field, p, s, count, x0, x1);
}

function enter(
  p: Packing,
  k: number,
  standing: number,
  s: number,
  x: number,
  y: number,
  weight: number,
): void {
  const { problem } = p;
  const { near, pair } = p.field;
  const at = k * STRIDE;
  near[at + 7] = weight;
  near[at + 8] = x;
  near[at + 9] = y;
  pair[k] = standing * problem.shapes.length + s;
  const table = problem.tables.ofPair[pair[k]!]!;
  if (table !== 0) {
    fit(table, p, k);
    return;
  }
  const { boxes, widestGap } = problem;
  const [a, b] = [4 * standing, 4 * s];
  const perX = 1 / (boxes[a + 2]! - boxes[a]! + boxes[b + 2]! - boxes[b]! + 2 * widestGap);
  const perY = 1 / (boxes[a + 3]! - boxes[a + 1]! + boxes[b + 3]! - boxes[b + 1]! + 2 * widestGap);
  near[at] = perX;
  near[at + 1] = -(x + boxes[a]! - boxes[b + 2]! - widestGap) * perX;
  near[at + 2] = perY;
  near[at + 3] = -(y + boxes[a + 1]! - boxes[b + 3]! - widestGap) * perY;
  near[at + 4] = 1;
  near[at + 5] = 1;
  near[at + 6] = -1;
}

/** Reads a neighbour's table at where it stands. */
function fit(table: number, { problem, field: { near } }: Packing, k: number): void {
  const { heads } = problem.tables;
  const at = k * STRIDE;
  const sign = table > 0 ? 1 : -1;
  const h = (sign * table - 1) * HEAD;
  const perX = heads[h + 2]!;
  const perY = heads[h + 3]!;
  near[at] = sign * perX;
  near[at + 1] = -(sign * near[at + 8]! + heads[h]!) * perX;
  near[at + 2] = sign * perY;
  near[at + 3] = -(sign * near[at + 9]! + heads[h + 1]!) * perY;
  near[at + 4] = heads[h + 4]!;
  near[at + 5] = heads[h + 5]!;
  near[at + 6] = heads[h + 6]!;
  near[at + 10] = heads[h + 7]!;
  near[at + 11] = sign;
}

/** A field far wider than the item is cut into columns, so that a position asks only who is near it. */
function sortIntoColumns(field: Field, p: Packing, s: number, count: number, x0: number, x1: number): void {
  const { near, pair, order, counts } = field;
  const { boxes, widestGap } = p.problem;
  const own = 4 * s;
  const columns =
    count < 10
      ? 1
      : Math.max(1, Math.min(MOST_COLUMNS, Math.floor((2 * (x1 - x0)) / (boxes[own + 2]! - boxes[own]!))));
  field.columns = columns;
  if (columns === 1) {
    for (let k = 0; k < count; k++) order[k] = k;
    counts[0] = count;
    return;
  }
  const most = pair.length;
  const perX = columns / (x1 - x0);
  field.fromX = x0;
  field.perX = perX;
  counts.fill(0, 0, columns);
  const shapes = p.problem.shapes.length;
  for (let k = 0; k < count; k++) {
    const other = 4 * Math.floor(pair[k]! / shapes);
    const x = near[k * STRIDE + 8]!;
    const from = (x + boxes[other]! - widestGap - boxes[own + 2]! - x0) * perX;
    const to = (x + boxes[other + 2]! + widestGap - boxes[own]! - x0) * perX;
    const last = Math.min(columns - 1, Math.floor(to + 1e-9));
    for (let c = Math.max(0, Math.floor(from - 1e-9)); c <= last; c++) order[c * most + counts[c]!++] = k;
  }
}

/**
 * Does the item weigh less than `limit` with its origin at x, y? Then `probe[3]` holds its weighted depth there; what
 * is no better is of no interest. `rough`: nearly so, from the distance fields alone, which is good enough to choose
 * among many positions.
 */
export function weighsLess(p: Packing, x: number, y: number, limit: number, rough: boolean): boolean {
  const { probe } = p.field;
  probe[0] = x;
  probe[1] = y;
  probe[2] = limit;
  return weigh(p, rough);
}

/**
 * Answers `probe`.
 *
 * All is written out in one function, what `depthIn` does included: numbers handed to another go through memory.
 */
function weigh(p: Packing, rough: boolean): boolean {
  const { near: field, order, counts, columns, fromX, perX, pair, probe } = p.field;
  const x = probe[0]!;
  const y = probe[1]!;
  const limit = probe[2]!;
  const { kind: kinds, depth: depths, starts, near, edges } = p.problem.tables;
  let column = columns === 1 ? 0 : ((x - fromX) * perX) | 0;
  if (column >= columns) column = columns - 1;
  const first = column * pair.length;
  const end = first + counts[column]!;
  let sum = 0;
  for (let turn = first; turn < end; turn++) {
    const k = order[turn]!;
    const at = k * STRIDE;
    const u = x * field[at]! + field[at + 1]!;
    const cols = field[at + 4]!;
    if (!(u > 0 && u < cols)) continue;
    const v = y * field[at + 2]! + field[at + 3]!;
    if (!(v > 0 && v < field[at + 5]!)) continue;
    const origin = field[at + 6]!;
    if (origin < 0) {
      fit(p.problem.tableOf(pair[k]!), p, k);
      return weigh(p, rough);
    }
    const col = u | 0;
    const row = v | 0;
    const cell = (origin + row * (cols + 1) + col) | 0;
    const kind = kinds[cell]!;
    if (kind === APART) continue;
    let depth = 0;
    if (kind !== INSIDE && (!rough || cols === 1)) {
      const sign = field[at + 11]!;
      const dx = sign * (x - field[at + 8]!);
      const dy = sign * (y - field[at + 9]!);
      const gap = field[at + 10]!;
      const stop = starts[cell + 1]!;
      for (let next = starts[cell]!; next < stop; ) {
        const sumOf = next;
        next += 3 + near[sumOf + 2]!;
        const most = gap - depth;
        let out = Number.NEGATIVE_INFINITY;
        for (let e = sumOf + 3; e < next; e++) {
          const edge = near[e]!;
          const m = edges[edge]! * dx + edges[edge + 1]! * dy - edges[edge + 2]!;
          if (m > out) {
            out = m;
            if (m >= most) break;
          }
        }
        if (out >= most) continue;
        const own = gap - (out <= 0 ? out : outsideDistance(edges, near[sumOf]!, near[sumOf + 1]!, dx, dy));
        if (own > depth) depth = own;
      }
      if (depth <= 0) continue;
    }
    if (kind !== EDGE || (rough && cols > 1)) {
      const above = (cell + cols + 1) | 0;
      const fu = u - col;
      const low = depths[cell]! * (1 - fu) + depths[cell + 1]! * fu;
      const high = depths[above]! * (1 - fu) + depths[above + 1]! * fu;
      depth = low + (high - low) * (v - row);
      if (depth <= 0) continue;
    }
    sum += overlapOf(depth) * field[at + 7]!;
    if (sum >= limit) {
      // Whoever settled this position may settle the next.
      if (turn > first) {
        order[turn] = order[turn - 1]!;
        order[turn - 1] = k;
      }
      return false;
    }
  }
  probe[3] = sum;
  return sum < limit;
}
