import { type CellLists, type Grid, INSIDE } from "./noFitCells.ts";
import { lineDistance, outsideDistance, STRIDE, type Sums } from "./sums.ts";

/**
 * Distance to the nearest free position, at every corner of the grid; at free ones, less the distance to the nearest
 * taken position, as far as a cell's diagonal. Free corners know their distance to the
 * boundary; it is passed on to inner corners by sweeping there and back (P.-E. Danielsson, "Euclidean distance
 * mapping", 1980).
 */
export function depthField(
  grid: Grid,
  kind: Uint8Array,
  lists: CellLists,
  sums: Sums,
  gap: number,
): Float32Array {
  const [nx, ny] = [grid.cols + 1, grid.rows + 1];
  const depth = new Float32Array(nx * ny).fill(Infinity);
  const seed = new Int32Array(nx * ny).fill(-1);
  const seedDepth = new Float32Array(nx * ny);
  for (let row = 0; row < ny; row++)
    for (let col = 0; col < nx; col++) {
      const at = row * nx + col;
      const own = cornerDepth(grid, kind, lists, sums, gap, col, row);
      if (own > 0) continue;
      seed[at] = at;
      seedDepth[at] = own;
      depth[at] = own;
    }
  sweep(grid, depth, seed, seedDepth, 1);
  sweep(grid, depth, seed, seedDepth, -1);
  sweep(grid, depth, seed, seedDepth, 1);
  const least = 0.05 * Math.min(grid.dx, grid.dy);
  // A free corner that touches a filled cell must not outweigh the others there.
  const touching = -1e-6 * Math.min(grid.dx, grid.dy);
  for (let at = 0; at < depth.length; at++) {
    if (seed[at] !== at) depth[at] = Math.max(least, depth[at]!);
    else if (depth[at]! > touching) depth[at] = 0;
  }
  return depth;
}

/** Depth at a grid corner as its cells know it: Infinity inside, 0 or less where free. */
function cornerDepth(
  grid: Grid,
  kind: Uint8Array,
  { starts, list }: CellLists,
  sums: Sums,
  gap: number,
  col: number,
  row: number,
): number {
  const x = grid.x0 + col * grid.dx;
  const y = grid.y0 + row * grid.dy;
  let deepest = -Math.hypot(grid.dx, grid.dy);
  for (let r = row - 1; r <= row; r++)
    for (let c = col - 1; c <= col; c++) {
      if (r < 0 || c < 0 || r >= grid.rows || c >= grid.cols) continue;
      const cell = r * grid.cols + c;
      if (kind[cell] === INSIDE) return Infinity;
      for (let k = starts[cell]!; k < starts[cell + 1]!; k++) {
        const s = list[k]!;
        deepest = Math.max(deepest, depthInSum(sums, s, gap, deepest, x, y));
      }
    }
  return deepest;
}

function sweep(
  grid: Grid,
  depth: Float32Array,
  seed: Int32Array,
  seedDepth: Float32Array,
  sense: 1 | -1,
): void {
  const { dx, dy } = grid;
  const [nx, ny] = [grid.cols + 1, grid.rows + 1];
  const total = nx * ny;
  for (let k = 0; k < total; k++) {
    const at = sense > 0 ? k : total - 1 - k;
    if (seed[at] === at) continue;
    const row = (at / nx) | 0;
    const col = at - row * nx;
    const [r0, r1] = [row > 0 ? row - 1 : 0, row + 1 < ny ? row + 1 : row];
    const [c0, c1] = [col > 0 ? col - 1 : 0, col + 1 < nx ? col + 1 : col];
    for (let r = r0; r <= r1; r++)
      for (let c = c0; c <= c1; c++) {
        const from = seed[r * nx + c]!;
        if (from < 0 || from === seed[at]) continue;
        const fromRow = (from / nx) | 0;
        const u = (from - fromRow * nx - col) * dx;
        const v = (fromRow - row) * dy;
        const d = Math.sqrt(u * u + v * v) + seedDepth[from]!;
        if (d < depth[at]!) {
          depth[at] = d;
          seed[at] = from;
        }
      }
  }
}

/** `gap` less the signed distance to a convex sum; anything up to `floor` may come back as `floor`. */
function depthInSum(sums: Sums, sum: number, gap: number, floor: number, x: number, y: number): number {
  const out = lineDistance(sums, sum, x, y);
  if (out >= gap - floor) return floor;
  if (out <= 0) return gap - out;
  return gap - outsideDistance(sums.edges, sums.first[sum]! * STRIDE, sums.first[sum + 1]! * STRIDE, x, y);
}
