import type { Convex } from "./convex.ts";
import { lineDistance, STRIDE, type Sums, sumsBounds } from "./sums.ts";

export const APART = 0;
export const EDGE = 1;
export const INSIDE = 2;
/** Well inside as far as the grid can see; but a slit or an opening of exact fit may hide between its corners. */
export const DEEP = 3;

export interface Grid {
  readonly x0: number;
  readonly y0: number;
  readonly dx: number;
  readonly dy: number;
  readonly cols: number;
  readonly rows: number;
}

/** Sums per cell: `list[starts[cell] .. starts[cell + 1]]`. */
export interface CellLists {
  readonly starts: Int32Array;
  readonly list: Int32Array;
}

/** Which sums reach into which cell; a cell that one sum fills needs no list. */
export function sortIntoCells(
  grid: Grid,
  list: readonly Convex[],
  sums: Sums,
  gap: number,
  kind: Uint8Array,
): CellLists {
  const half = Math.hypot(grid.dx, grid.dy) / 2;
  const cells: number[] = [];
  const owners: number[] = [];
  for (let s = 0; s < list.length; s++) {
    const [x0, y0, x1, y1] = sumsBounds([list[s]!], gap);
    const c0 = Math.max(0, Math.floor((x0 - grid.x0) / grid.dx - 1e-9));
    const c1 = Math.min(grid.cols - 1, Math.floor((x1 - grid.x0) / grid.dx + 1e-9));
    const r0 = Math.max(0, Math.floor((y0 - grid.y0) / grid.dy - 1e-9));
    const r1 = Math.min(grid.rows - 1, Math.floor((y1 - grid.y0) / grid.dy + 1e-9));
    for (let row = r0; row <= r1; row++) {
      const y = grid.y0 + (row + 0.5) * grid.dy;
      for (let col = c0; col <= c1; col++) {
        const cell = row * grid.cols + col;
        if (kind[cell] === INSIDE) continue;
        // At most the true distance, so no cell is missed.
        const out = lineDistance(sums, s, grid.x0 + (col + 0.5) * grid.dx, y);
        if (out > gap + half) continue;
        // Grown by `gap`, a sum holds the cell's circle if its middle is deep enough; out ≤ 0 is exact.
        if (out <= Math.min(0, gap - half)) {
          kind[cell] = INSIDE;
          continue;
        }
        cells.push(cell);
        owners.push(s);
      }
    }
  }
  return cellLists(cells, owners, kind);
}

function cellLists(cells: readonly number[], owners: readonly number[], kind: Uint8Array): CellLists {
  const starts = new Int32Array(kind.length + 1);
  for (const cell of cells) if (kind[cell] !== INSIDE) starts[cell + 1]!++;
  for (let c = 0; c < kind.length; c++) {
    if (starts[c + 1]! > 0) kind[c] = EDGE;
    starts[c + 1]! += starts[c]!;
  }
  const list = new Int32Array(starts[kind.length]!);
  const next = starts.slice();
  for (let i = 0; i < cells.length; i++)
    if (kind[cells[i]!] !== INSIDE) list[next[cells[i]!]!++] = owners[i]!;
  return { starts, list };
}

/**
 * Of each cell's sums the edges that can be the nearest somewhere in it, as sum, number of edges, those edges' places
 * in `edges`. A sum that one edge keeps off the whole cell is left out; a cell that keeps none becomes APART.
 */
export function relevantEdges(
  grid: Grid,
  { starts, list }: CellLists,
  sums: Sums,
  gap: number,
  kind: Uint8Array,
): { starts: Int32Array; near: Int32Array } {
  const begin = new Int32Array(kind.length + 1);
  const near: number[] = [];
  for (let cell = 0; cell < kind.length; cell++) {
    begin[cell] = near.length;
    if (kind[cell] === APART || kind[cell] === INSIDE) continue;
    const row = (cell / grid.cols) | 0;
    const x = grid.x0 + (cell - row * grid.cols + 0.5) * grid.dx;
    const y = grid.y0 + (row + 0.5) * grid.dy;
    for (let k = starts[cell]!; k < starts[cell + 1]!; k++)
      addRelevant(near, sums, list[k]!, gap, x, y, grid.dx / 2, grid.dy / 2);
    if (near.length === begin[cell]) kind[cell] = APART;
  }
  begin[kind.length] = near.length;
  return { starts: begin, near: new Int32Array(near) };
}

/** Rounding of sums at 3 m counts as inside: an edge too many does no harm. */
const ROUNDING = 1e-9;

function addRelevant(
  near: number[],
  { first, edges }: Sums,
  sum: number,
  gap: number,
  x: number,
  y: number,
  rx: number,
  ry: number,
): void {
  const [from, to] = [first[sum]! * STRIDE, first[sum + 1]! * STRIDE];
  const slack = ROUNDING * (rx + ry);
  let [top, out] = [from, -Infinity];
  for (let e = from; e < to; e += STRIDE) {
    const m = edges[e]! * x + edges[e + 1]! * y - edges[e + 2]!;
    if (m <= out) continue;
    top = e;
    out = m;
  }
  const [nx, ny] = [edges[top]!, edges[top + 1]!];
  if (out - Math.abs(nx) * rx - Math.abs(ny) * ry >= gap + slack) return;
  const at = near.length;
  near.push(sum, 0, top);
  for (let e = from; e < to; e += STRIDE) {
    if (e === top) continue;
    const m = edges[e]! * x + edges[e + 1]! * y - edges[e + 2]!;
    // The middle's nearest edge stays ahead of this one all over the cell?
    const swing = Math.abs(nx - edges[e]!) * rx + Math.abs(ny - edges[e + 1]!) * ry;
    if (out - m > swing + slack) continue;
    if (m - Math.abs(edges[e]!) * rx - Math.abs(edges[e + 1]!) * ry >= gap + slack) {
      near.length = at;
      return;
    }
    near.push(e);
  }
  near[at + 1] = near.length - at - 2;
}
