import type { Convex } from "./convex.ts";

/**
 * Where the reference point of shape B may not be while shape A stands still: the no-fit polygon, as the union of
 * the Minkowski sums of A's convex pieces with B's mirrored ones, grown by `gap`.
 *
 * Cells of a grid say at once "apart" or "inside"; only cells that the boundary crosses look at the sums themselves,
 * and there the answer is exact. Inside, the depth (how far to the nearest free position) comes from a distance field.
 */
export interface NoFit {
  readonly gap: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly perX: number;
  readonly perY: number;
  readonly cols: number;
  /** Per cell: APART, EDGE, INSIDE or DEEP. */
  readonly kind: Uint8Array;
  /** At the cells' corners, cols + 1 a row. */
  readonly depth: Float32Array;
  /** Sums that matter in a cell: `sums[starts[cell] .. starts[cell + 1]]`. */
  readonly starts: Int32Array;
  readonly sums: Int32Array;
  /** First edge of each sum; edges are nx, ny, offset, corner x, corner y. */
  readonly sumEdges: Int32Array;
  readonly edges: Float64Array;
}

const APART = 0;
const EDGE = 1;
const INSIDE = 2;
/** Well inside as far as the grid can see; but a slit or an opening of exact fit may hide between its corners. */
const DEEP = 3;

/** Numbers per edge. */
const STRIDE = 5;

export function noFit(a: readonly Convex[], b: readonly Convex[], gap: number, resolution: number): NoFit {
  const sums: Convex[] = [];
  for (const p of a) for (const q of b) sums.push(minkowski(p, q));
  const box = boundsOf(sums, gap);
  const [w, h] = [box[2] - box[0], box[3] - box[1]];
  const [cols, rows] = gridFor(sums.length, w, h, resolution);
  const grid = { x0: box[0], y0: box[1], dx: w / cols, dy: h / rows, cols, rows };
  const sumEdges = new Int32Array(sums.length + 1);
  const edges = edgesOf(sums, sumEdges);
  const kind = new Uint8Array(cols * rows);
  const { starts, list } =
    sums.length === 1
      ? { starts: Int32Array.of(0, 1), list: Int32Array.of(0) }
      : sortIntoCells(grid, sums, sumEdges, edges, gap, kind);
  let depth: Float32Array = new Float32Array(0);
  if (sums.length === 1) kind.fill(EDGE);
  else {
    depth = depthField(grid, kind, starts, list, sumEdges, edges, gap);
    settleInside(grid, kind, depth);
  }
  return {
    gap,
    x0: box[0],
    y0: box[1],
    x1: box[2],
    y1: box[3],
    perX: 1 / grid.dx,
    perY: 1 / grid.dy,
    cols,
    kind,
    depth,
    starts,
    sums: list,
    sumEdges,
    edges,
  };
}

/** Columns and rows of nearly square cells; a single convex sum answers exactly everywhere and needs no grid. */
function gridFor(sums: number, w: number, h: number, resolution: number): [number, number] {
  if (sums === 1) return [1, 1];
  const fit = (share: number): number =>
    Math.max(4, Math.min(2 * resolution, Math.round(resolution * Math.sqrt(share))));
  return [fit(w / h), fit(h / w)];
}

/** How deep B at x, y (relative to A) is in A; 0 where they are apart or touch. */
export function depthAt(t: NoFit, x: number, y: number): number {
  if (x <= t.x0 || x >= t.x1 || y <= t.y0 || y >= t.y1) return 0;
  const u = (x - t.x0) * t.perX;
  const v = (y - t.y0) * t.perY;
  const col = u | 0;
  const row = v | 0;
  const cell = row * t.cols + col;
  const kind = t.kind[cell];
  if (kind === APART || kind === undefined) return 0;
  if (kind === EDGE) return edgeDepth(t, cell, x, y);
  if (kind === DEEP && !anyHolds(t, cell, x, y)) return 0;
  const corner = cell + row;
  const above = corner + t.cols + 1;
  const fu = u - col;
  const fv = v - row;
  const low = t.depth[corner]! * (1 - fu) + t.depth[corner + 1]! * fu;
  const high = t.depth[above]! * (1 - fu) + t.depth[above + 1]! * fu;
  return low * (1 - fv) + high * fv;
}

function edgeDepth(t: NoFit, cell: number, x: number, y: number): number {
  let deepest = 0;
  const { sums, sumEdges, edges, gap } = t;
  const end = t.starts[cell + 1]!;
  for (let k = t.starts[cell]!; k < end; k++) {
    const sum = sums[k]!;
    const depth = depthInSum(edges, sumEdges[sum]!, sumEdges[sum + 1]!, gap, deepest, x, y);
    if (depth > deepest) deepest = depth;
  }
  return deepest;
}

function anyHolds(t: NoFit, cell: number, x: number, y: number): boolean {
  const end = t.starts[cell + 1]!;
  for (let k = t.starts[cell]!; k < end; k++) {
    const sum = t.sums[k]!;
    if (depthInSum(t.edges, t.sumEdges[sum]!, t.sumEdges[sum + 1]!, t.gap, 0, x, y) > 0) return true;
  }
  return false;
}

/** `gap` less the signed distance to a convex sum; anything up to `floor` may come back as `floor`. */
function depthInSum(
  edges: Float64Array,
  first: number,
  last: number,
  gap: number,
  floor: number,
  x: number,
  y: number,
): number {
  let out = -Infinity;
  const limit = gap - floor;
  for (let e = first * STRIDE; e < last * STRIDE; e += STRIDE) {
    const m = edges[e]! * x + edges[e + 1]! * y - edges[e + 2]!;
    if (m > out) {
      if (m >= limit) return floor;
      out = m;
    }
  }
  if (out <= 0) return gap - out;
  return gap - outsideDistance(edges, first, last, x, y);
}

/** Exact distance from a point outside a convex sum: corners are round. */
function outsideDistance(edges: Float64Array, first: number, last: number, x: number, y: number): number {
  let least = Infinity;
  for (let e = first; e < last; e++) {
    const i = e * STRIDE;
    const j = (e + 1 < last ? e + 1 : first) * STRIDE;
    const [px, py] = [edges[i + 3]!, edges[i + 4]!];
    const [dx, dy] = [edges[j + 3]! - px, edges[j + 4]! - py];
    const t = Math.max(0, Math.min(1, ((x - px) * dx + (y - py) * dy) / (dx * dx + dy * dy)));
    const [ex, ey] = [x - px - t * dx, y - py - t * dy];
    least = Math.min(least, ex * ex + ey * ey);
  }
  return Math.sqrt(least);
}

/** p ⊕ (−q) for convex p and q: their edges, merged by direction. */
function minkowski(p: Convex, q: Convex): Convex {
  const [n, m] = [p.length / 2, q.length / 2];
  const low = lowest(p, 1);
  const high = lowest(q, -1);
  const out: number[] = [];
  let [i, j] = [0, 0];
  let x = p[2 * low]! - q[2 * high]!;
  let y = p[2 * low + 1]! - q[2 * high + 1]!;
  while (i < n || j < m) {
    const a = 2 * ((low + i) % n);
    const a1 = 2 * ((low + i + 1) % n);
    const b = 2 * ((high + j) % m);
    const b1 = 2 * ((high + j + 1) % m);
    const [ax, ay] = [p[a1]! - p[a]!, p[a1 + 1]! - p[a + 1]!];
    const [bx, by] = [q[b]! - q[b1]!, q[b + 1]! - q[b1 + 1]!];
    const turn = i >= n ? -1 : j >= m ? 1 : ax * by - ay * bx;
    out.push(x, y);
    // Corners are sums of corners, not of edges: no drift.
    if (turn >= 0) i++;
    if (turn <= 0) j++;
    const [u, v] = [2 * ((low + i) % n), 2 * ((high + j) % m)];
    x = p[u]! - q[v]!;
    y = p[u + 1]! - q[v + 1]!;
  }
  return Float64Array.from(out);
}

/** The corner of least y (sense 1) or most y (sense −1), then of least or most x. */
function lowest(p: Convex, sense: number): number {
  let best = 0;
  for (let k = 1; k < p.length / 2; k++) {
    const dy = sense * (p[2 * k + 1]! - p[2 * best + 1]!);
    if (dy < 0 || (dy === 0 && sense * (p[2 * k]! - p[2 * best]!) < 0)) best = k;
  }
  return best;
}

function boundsOf(sums: readonly Convex[], gap: number): [number, number, number, number] {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const sum of sums)
    for (let k = 0; k < sum.length; k += 2) {
      x0 = Math.min(x0, sum[k]!);
      x1 = Math.max(x1, sum[k]!);
      y0 = Math.min(y0, sum[k + 1]!);
      y1 = Math.max(y1, sum[k + 1]!);
    }
  return [x0 - gap, y0 - gap, x1 + gap, y1 + gap];
}

/** Outward unit normals and offsets; edges of no length are dropped. Fills `sumEdges`. */
function edgesOf(sums: readonly Convex[], sumEdges: Int32Array): Float64Array {
  const out: number[] = [];
  for (const [s, sum] of sums.entries()) {
    for (let k = 0; k < sum.length; k += 2) {
      const [x, y] = [sum[k]!, sum[k + 1]!];
      const [dx, dy] = [sum[(k + 2) % sum.length]! - x, sum[(k + 3) % sum.length]! - y];
      const length = Math.hypot(dx, dy);
      if (length === 0) continue;
      const [nx, ny] = [dy / length, -dx / length];
      out.push(nx, ny, nx * x + ny * y, x, y);
    }
    sumEdges[s + 1] = out.length / STRIDE;
  }
  return Float64Array.from(out);
}

interface Grid {
  readonly x0: number;
  readonly y0: number;
  readonly dx: number;
  readonly dy: number;
  readonly cols: number;
  readonly rows: number;
}

/** Which sums reach into which cell; a cell that one sum fills needs no list. */
function sortIntoCells(
  grid: Grid,
  sums: readonly Convex[],
  sumEdges: Int32Array,
  edges: Float64Array,
  gap: number,
  kind: Uint8Array,
): { starts: Int32Array; list: Int32Array } {
  const half = Math.hypot(grid.dx, grid.dy) / 2;
  const cells: number[] = [];
  const owners: number[] = [];
  for (const [s, sum] of sums.entries()) {
    const [x0, y0, x1, y1] = boundsOf([sum], gap);
    const c0 = Math.max(0, Math.floor((x0 - grid.x0) / grid.dx - 1e-9));
    const c1 = Math.min(grid.cols - 1, Math.floor((x1 - grid.x0) / grid.dx + 1e-9));
    const r0 = Math.max(0, Math.floor((y0 - grid.y0) / grid.dy - 1e-9));
    const r1 = Math.min(grid.rows - 1, Math.floor((y1 - grid.y0) / grid.dy + 1e-9));
    const [first, last] = [sumEdges[s]! * STRIDE, sumEdges[s + 1]! * STRIDE];
    for (let row = r0; row <= r1; row++) {
      const y = grid.y0 + (row + 0.5) * grid.dy;
      for (let col = c0; col <= c1; col++) {
        const cell = row * grid.cols + col;
        if (kind[cell] === INSIDE) continue;
        const x = grid.x0 + (col + 0.5) * grid.dx;
        // The largest distance over any edge's line: at most the true distance, so no cell is missed.
        let out = -Infinity;
        for (let e = first; e < last; e += STRIDE) {
          const m = edges[e]! * x + edges[e + 1]! * y - edges[e + 2]!;
          if (m > out) out = m;
        }
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

function cellLists(
  cells: number[],
  owners: number[],
  kind: Uint8Array,
): { starts: Int32Array; list: Int32Array } {
  const starts = new Int32Array(kind.length + 1);
  for (const cell of cells) if (kind[cell] !== INSIDE) starts[cell + 1]!++;
  for (let c = 0; c < kind.length; c++) {
    if (starts[c + 1]! > 0) kind[c] = EDGE;
    starts[c + 1]! += starts[c]!;
  }
  const list = new Int32Array(starts[kind.length]!);
  const next = starts.slice();
  for (const [i, cell] of cells.entries()) if (kind[cell] !== INSIDE) list[next[cell]!++] = owners[i]!;
  return { starts, list };
}

/**
 * Distance to the nearest free position, at every corner of the grid. Free corners know their distance to the
 * boundary; it is passed on to inner corners by sweeping there and back (P.-E. Danielsson, "Euclidean distance
 * mapping", 1980).
 */
function depthField(
  grid: Grid,
  kind: Uint8Array,
  starts: Int32Array,
  list: Int32Array,
  sumEdges: Int32Array,
  edges: Float64Array,
  gap: number,
): Float32Array {
  const [nx, ny] = [grid.cols + 1, grid.rows + 1];
  const depth = new Float32Array(nx * ny).fill(Infinity);
  const seed = new Int32Array(nx * ny).fill(-1);
  const seedDepth = new Float32Array(nx * ny);
  for (let row = 0; row < ny; row++)
    for (let col = 0; col < nx; col++) {
      const at = row * nx + col;
      const own = cornerDepth(grid, kind, starts, list, sumEdges, edges, gap, col, row);
      if (own > 0) continue;
      seed[at] = at;
      seedDepth[at] = own;
      depth[at] = own;
    }
  sweep(grid, depth, seed, seedDepth, 1);
  sweep(grid, depth, seed, seedDepth, -1);
  sweep(grid, depth, seed, seedDepth, 1);
  const least = 0.05 * Math.min(grid.dx, grid.dy);
  for (let at = 0; at < depth.length; at++) depth[at] = seed[at] === at ? 0 : Math.max(least, depth[at]!);
  return depth;
}

/** Depth at a grid corner as its cells know it: Infinity inside, 0 or less where free. */
function cornerDepth(
  grid: Grid,
  kind: Uint8Array,
  starts: Int32Array,
  list: Int32Array,
  sumEdges: Int32Array,
  edges: Float64Array,
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
        deepest = Math.max(deepest, depthInSum(edges, sumEdges[s]!, sumEdges[s + 1]!, gap, deepest, x, y));
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

/** Cells that several sums fill together: every corner is deeper than the cell is wide. */
function settleInside(grid: Grid, kind: Uint8Array, depth: Float32Array): void {
  const nx = grid.cols + 1;
  const deep = 1.5 * Math.hypot(grid.dx, grid.dy);
  for (let row = 0; row < grid.rows; row++)
    for (let col = 0; col < grid.cols; col++) {
      const corner = row * nx + col;
      const least = Math.min(
        depth[corner]!,
        depth[corner + 1]!,
        depth[corner + nx]!,
        depth[corner + nx + 1]!,
      );
      const cell = row * grid.cols + col;
      if (kind[cell] === EDGE && least > deep) kind[cell] = DEEP;
    }
}
