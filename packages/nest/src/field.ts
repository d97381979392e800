import { depthAt, type NoFit } from "./noFit.ts";
import { overlapOf, type Packing } from "./packing.ts";

/**
 * What one item in one of its shapes meets on one sheet: for every other item the box in which the item's origin
 * would be near it, its no-fit table and weight. Built once per move, read at every position tried.
 */
export interface Field {
  count: number;
  /** Per neighbour: x0, y0, x1, y1 of the box, then origin x and y, sign of the offset, weight. */
  readonly box: Float64Array;
  readonly tables: NoFit[];
}

const STRIDE = 8;

export function fieldOf(n: number): Field {
  return { count: 0, box: new Float64Array(STRIDE * (n + 1)), tables: [] };
}

/** Fills the field with what item i as shape s meets within x0, y0, x1, y1 of a sheet. */
export function gather(
  field: Field,
  p: Packing,
  i: number,
  s: number,
  bin: number,
  within: readonly [number, number, number, number],
): void {
  const { n, weight, shape, mass } = p;
  const row = i * (n + 1);
  field.count = 0;
  for (let j = 0; j < n; j++)
    if (j !== i && p.bin[j] === bin)
      add(field, p, s, within, shape[j]!, p.x[j]!, p.y[j]!, weight[row + j]! * mass[i]! * mass[j]!);
  for (const obstacle of p.problem.obstaclesOf[bin]!)
    add(field, p, s, within, obstacle, 0, 0, weight[row + n]! * mass[i]!);
}

function add(
  field: Field,
  { problem }: Packing,
  s: number,
  within: readonly [number, number, number, number],
  standing: number,
  x: number,
  y: number,
  w: number,
): void {
  const [own, other, gap] = [problem.shapes[s]!, problem.shapes[standing]!, problem.widestGap];
  if (x + other.x0 - gap >= within[2] + own.x1 || x + other.x1 + gap <= within[0] + own.x0) return;
  if (y + other.y0 - gap >= within[3] + own.y1 || y + other.y1 + gap <= within[1] + own.y0) return;
  const table = problem.table(standing, s);
  const sign = problem.sign(standing, s);
  const x0 = sign > 0 ? x + table.x0 : x - table.x1;
  const y0 = sign > 0 ? y + table.y0 : y - table.y1;
  const x1 = sign > 0 ? x + table.x1 : x - table.x0;
  const y1 = sign > 0 ? y + table.y1 : y - table.y0;
  if (x0 >= within[2] || x1 <= within[0] || y0 >= within[3] || y1 <= within[1]) return;
  const { box } = field;
  const at = field.count * STRIDE;
  box[at] = x0;
  box[at + 1] = y0;
  box[at + 2] = x1;
  box[at + 3] = y1;
  box[at + 4] = x;
  box[at + 5] = y;
  box[at + 6] = sign;
  box[at + 7] = w;
  field.tables[field.count++] = table;
}

/** Weighted depth of the item with its origin at x, y; stops at `limit`: what is no better is of no interest. */
export function weighIn(field: Field, x: number, y: number, limit: number): number {
  const { box, tables } = field;
  const end = field.count * STRIDE;
  let sum = 0;
  for (let at = 0; at < end; at += STRIDE) {
    if (x <= box[at]! || y <= box[at + 1]! || x >= box[at + 2]! || y >= box[at + 3]!) continue;
    const sign = box[at + 6]!;
    const depth = depthAt(tables[at / STRIDE]!, sign * (x - box[at + 4]!), sign * (y - box[at + 5]!));
    if (depth > 0) {
      sum += overlapOf(depth) * box[at + 7]!;
      if (sum >= limit) return sum;
    }
  }
  return sum;
}
