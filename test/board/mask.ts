import type { Region } from "@dryfit/geometry";

/** Pixels on a plane, mm: row 0 is the lowest. */
export interface Grid {
  readonly left: number;
  readonly low: number;
  readonly pixel: number;
  readonly columns: number;
  readonly rows: number;
}

/** One for each pixel that belongs, row by row. */
export type Mask = Uint8Array;

type Spot = { readonly x: number; readonly y: number };

/** The pixels whose middle lies in a region; the regions' chains have no arcs. */
export function maskOf<F extends string>(
  grid: Grid,
  regions: readonly Region<F>[],
  toGrid: (p: Spot) => Spot,
): Mask {
  const { left, low, pixel, columns, rows } = grid;
  const crossings: number[][] = Array.from({ length: rows }, () => []);
  for (const { outer, holes } of regions)
    for (const { vertices } of [outer, ...holes])
      vertices.forEach((vertex, i) => {
        const [a, b] = [toGrid(vertex), toGrid(vertices[(i + 1) % vertices.length]!)];
        const [y0, y1] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
        const first = Math.max(0, Math.ceil((y0 - low) / pixel - 0.5));
        for (let row = first; row < rows && low + (row + 0.5) * pixel < y1; row++) {
          const share = (low + (row + 0.5) * pixel - a.y) / (b.y - a.y);
          crossings[row]!.push(a.x + (b.x - a.x) * share);
        }
      });
  const mask = new Uint8Array(columns * rows);
  crossings.forEach((xs, row) => {
    xs.sort((a, b) => a - b);
    for (let i = 0; i + 1 < xs.length; i += 2) {
      const from = Math.max(0, Math.ceil((xs[i]! - left) / pixel - 0.5));
      const to = Math.min(columns - 1, Math.ceil((xs[i + 1]! - left) / pixel - 0.5) - 1);
      if (from <= to) mask.fill(1, row * columns + from, row * columns + to + 1);
    }
  });
  return mask;
}

/** The pixels around places, mm. */
export function clear(mask: Mask, grid: Grid, places: readonly (Spot & { readonly radius: number })[]): void {
  for (const { x, y, radius } of places) {
    const [column, row] = [(x - grid.left) / grid.pixel, (y - grid.low) / grid.pixel];
    const reach = Math.ceil(radius / grid.pixel);
    for (let r = Math.floor(row) - reach; r <= row + reach; r++)
      for (let c = Math.floor(column) - reach; c <= column + reach; c++)
        if (r >= 0 && c >= 0 && r < grid.rows && c < grid.columns) mask[r * grid.columns + c] = 0;
  }
}

/** What of the wood hangs together with some of it: offcuts and the web are left out, as the proof does. */
export function hangingTogether(wood: Mask, some: Mask, { columns }: Grid): Mask {
  const found = new Uint8Array(wood.length);
  const open: number[] = [];
  const take = (at: number): void => {
    if (wood[at] === 1 && found[at] === 0) {
      found[at] = 1;
      open.push(at);
    }
  };
  for (let at = 0; at < some.length; at++) if (some[at] === 1) take(at);
  while (open.length > 0) {
    const at = open.pop()!;
    if (at % columns > 0) take(at - 1);
    if (at % columns < columns - 1) take(at + 1);
    take(at - columns);
    take(at + columns);
  }
  return found;
}

/** Pixels that differ although no edge of `wanted` runs through them or beside them: half a millimetre is one pixel. */
export function differing(mask: Mask, wanted: Mask, { columns, rows }: Grid): number {
  let count = 0;
  for (let row = 1; row < rows - 1; row++)
    for (let column = 1; column < columns - 1; column++) {
      const at = row * columns + column;
      if (mask[at] !== wanted[at] && isEven(wanted, at, columns)) count++;
    }
  return count;
}

/** Whether a pixel and the eight around it are alike. */
export function isEven(mask: Mask, at: number, columns: number): boolean {
  for (const row of [-columns, 0, columns])
    for (const column of [-1, 0, 1]) if (mask[at + row + column] !== mask[at]) return false;
  return true;
}
