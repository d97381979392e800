import type { NoFit } from "./noFit.ts";
import { APART, EDGE, INSIDE } from "./noFitCells.ts";
import { outsideDistance, STRIDE, type Sums } from "./sums.ts";

/**
 * A problem's no-fit tables, packed into a few flat arrays that grow: the search reads them millions of times a
 * second, and every object on the way to a number would cost it a look into memory.
 */
export interface Tables {
  /** Per pair of shapes its table, counted from 1; below 0 for offsets turned by half a turn; 0 if not made yet. */
  readonly ofPair: Int32Array;
  /** Per table: x0, y0, cells per length along x and y, columns, rows, first cell, gap. */
  heads: Float64Array;
  /** Per cell (a row holds one more than there are columns): APART, EDGE, INSIDE or DEEP. */
  kind: Uint8Array;
  /** At each cell's lower left corner: depth of overlap, or below 0 how far it is off. */
  depth: Float32Array;
  /** What matters in a cell: `near[starts[cell] .. starts[cell + 1]]`. */
  starts: Int32Array;
  /** Per sum in a cell: its edges' range in `edges`, then how many of them matter here, then those. */
  near: Int32Array;
  edges: Float64Array;
  count: number;
  cells: number;
  edgesUsed: number;
}

export const HEAD = 8;

export function tablesFor(shapes: number): Tables {
  return {
    ofPair: new Int32Array(shapes * shapes),
    heads: new Float64Array(0),
    kind: new Uint8Array(0),
    depth: new Float32Array(0),
    starts: new Int32Array(1),
    near: new Int32Array(0),
    edges: new Float64Array(0),
    count: 0,
    cells: 0,
    edgesUsed: 0,
  };
}

/** Takes a table in, of its sums only those that matter somewhere; returns its number, from 0. */
export function addTable(t: Tables, { gap, grid, kind, depth, starts, near, sums }: NoFit): number {
  const { x0, y0, dx, dy, cols, rows } = grid;
  const across = cols + 1;
  const size = across * (rows + 1);
  t.heads = withRoom(t.heads, (t.count + 1) * HEAD);
  t.kind = withRoom(t.kind, t.cells + size);
  t.depth = withRoom(t.depth, t.cells + size);
  t.starts = withRoom(t.starts, t.cells + size + 1);
  let end = t.starts[t.cells]!;
  t.near = withRoom(t.near, end + 2 * near.length);
  t.heads.set([x0, y0, 1 / dx, 1 / dy, cols, rows, t.cells, gap], t.count * HEAD);
  const moved = takeEdges(t, sums, starts, near);
  t.depth.set(depth, t.cells);
  for (let corner = 0; corner < size; corner++) {
    const at = t.cells + corner;
    const row = Math.floor(corner / across);
    const col = corner - row * across;
    t.starts[at] = end;
    if (col === cols || row === rows) continue;
    const cell = row * cols + col;
    t.kind[at] = kind[cell]!;
    for (let k = starts[cell]!; k < starts[cell + 1]!; ) {
      const [sum, count] = [near[k]!, near[k + 1]!];
      const by = moved[sum]!;
      t.near[end++] = by + sums.first[sum]! * STRIDE;
      t.near[end++] = by + sums.first[sum + 1]! * STRIDE;
      t.near[end++] = count;
      for (let e = 0; e < count; e++) t.near[end++] = by + near[k + 2 + e]!;
      k += 2 + count;
    }
  }
  t.cells += size;
  t.starts[t.cells] = end;
  return t.count++;
}

/** Most sums lie deep within others and matter in no cell. Returns how far each that does has moved. */
function takeEdges(t: Tables, { first, edges }: Sums, starts: Int32Array, near: Int32Array): Int32Array {
  const moved = new Int32Array(first.length);
  const taken = new Uint8Array(first.length);
  for (let k = 0; k < starts.at(-1)!; k += 2 + near[k + 1]!) {
    const sum = near[k]!;
    if (taken[sum]) continue;
    taken[sum] = 1;
    const [from, to] = [first[sum]! * STRIDE, first[sum + 1]! * STRIDE];
    t.edges = withRoom(t.edges, t.edgesUsed + to - from);
    moved[sum] = t.edgesUsed - from;
    for (let e = from; e < to; e++) t.edges[t.edgesUsed++] = edges[e]!;
  }
  return moved;
}

/** How deep the moving shape is in the standing one, its offset x, y times the pair's sign; 0 where they are apart. */
export function depthIn(t: Tables, table: number, x: number, y: number): number {
  const { heads } = t;
  const h = table * HEAD;
  const u = (x - heads[h]!) * heads[h + 2]!;
  const v = (y - heads[h + 1]!) * heads[h + 3]!;
  const cols = heads[h + 4]!;
  if (!(u > 0 && v > 0 && u < cols && v < heads[h + 5]!)) return 0;
  const [col, row] = [u | 0, v | 0];
  const cell = heads[h + 6]! + row * (cols + 1) + col;
  const kind = t.kind[cell]!;
  if (kind === APART) return 0;
  if (kind !== INSIDE) {
    const exact = edgeDepth(t, cell, heads[h + 7]!, x, y);
    if (kind === EDGE || exact <= 0) return exact;
  }
  return cornersDepth(t.depth, cell, cols, u - col, v - row);
}

/** The depth between a cell's corners. */
function cornersDepth(depth: Float32Array, cell: number, cols: number, fu: number, fv: number): number {
  const above = cell + cols + 1;
  const low = depth[cell]! * (1 - fu) + depth[cell + 1]! * fu;
  const high = depth[above]! * (1 - fu) + depth[above + 1]! * fu;
  return low * (1 - fv) + high * fv;
}

/** `gap` less the signed distance to the nearest sum, among those that matter in the cell. */
function edgeDepth(t: Tables, cell: number, gap: number, x: number, y: number): number {
  const { near, edges, starts } = t;
  const end = starts[cell + 1]!;
  let deepest = 0;
  for (let k = starts[cell]!; k < end; ) {
    const from = k + 3;
    const after = from + near[k + 2]!;
    const limit = gap - deepest;
    let out = -Infinity;
    for (let e = from; e < after; e++) {
      const at = near[e]!;
      const m = edges[at]! * x + edges[at + 1]! * y - edges[at + 2]!;
      if (m > out) {
        out = m;
        if (m >= limit) break;
      }
    }
    const sum = k;
    k = after;
    if (out >= limit) continue;
    const depth = gap - (out <= 0 ? out : outsideDistance(edges, near[sum]!, near[sum + 1]!, x, y));
    if (depth > deepest) deepest = depth;
  }
  return deepest;
}

/** The array itself, or a copy at least twice as long: growing costs no more than filling. */
function withRoom<T extends Float64Array | Float32Array | Int32Array | Uint8Array>(
  array: T,
  need: number,
): T {
  if (need <= array.length) return array;
  const longer = new (array.constructor as new (length: number) => T)(Math.max(need, 2 * array.length));
  longer.set(array as never);
  return longer;
}
