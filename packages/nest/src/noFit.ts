import type { Convex } from "./convex.ts";
import { depthField } from "./depthField.ts";
import { minkowski } from "./minkowski.ts";
import { APART, DEEP, EDGE, type Grid, relevantEdges, sortIntoCells } from "./noFitCells.ts";
import { outsideDistance, type Sums, sumsBounds, sumsOf } from "./sums.ts";

/**
 * Where the reference point of shape B may not be while shape A stands still: the no-fit polygon, as the union of
 * the Minkowski sums of A's convex pieces with B's mirrored ones, grown by `gap`.
 *
 * Cells of a grid say at once "apart" or "inside"; only cells that the boundary crosses look at the sums themselves,
 * and there at the few edges that can be the nearest: the answer is exact. Inside, the depth (how far to the nearest
 * free position) comes from a distance field.
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
  /** What matters in a cell: `near[starts[cell] .. starts[cell + 1]]`, as sum, number of edges, those edges … */
  readonly starts: Int32Array;
  readonly near: Int32Array;
  readonly sums: Sums;
}

/** A convex sum of fewer edges answers as fast as a grid could. */
const FEW_EDGES = 6;

export function noFit(a: readonly Convex[], b: readonly Convex[], gap: number, resolution: number): NoFit {
  const list: Convex[] = [];
  for (const p of a) for (const q of b) list.push(minkowski(p, q));
  const sums = sumsOf(list);
  const [x0, y0, x1, y1] = sumsBounds(list, gap);
  const whole = list.length === 1;
  const [cols, rows] =
    whole && sums.first[1]! <= FEW_EDGES ? [1, 1] : gridFor((x1 - x0) / (y1 - y0), resolution);
  const grid: Grid = { x0, y0, dx: (x1 - x0) / cols, dy: (y1 - y0) / rows, cols, rows };
  const kind = new Uint8Array(cols * rows);
  let depth: Float32Array = new Float32Array(0);
  const lists = whole ? everywhere(kind) : sortIntoCells(grid, list, sums, gap, kind);
  if (!whole) {
    depth = depthField(grid, kind, lists, sums, gap);
    settleInside(grid, kind, depth);
  }
  const { starts, near } = relevantEdges(grid, lists, sums, gap, kind);
  const { perX, perY } = { perX: 1 / grid.dx, perY: 1 / grid.dy };
  return { gap, x0, y0, x1, y1, perX, perY, cols, kind, depth, starts, near, sums };
}

/** Columns and rows of nearly square cells. */
function gridFor(share: number, resolution: number): [number, number] {
  const fit = (ratio: number): number =>
    Math.max(4, Math.min(2 * resolution, Math.round(resolution * Math.sqrt(ratio))));
  return [fit(share), fit(1 / share)];
}

/** A single convex sum answers exactly everywhere. */
function everywhere(kind: Uint8Array): { starts: Int32Array; list: Int32Array } {
  kind.fill(EDGE);
  return {
    starts: Int32Array.from({ length: kind.length + 1 }, (_, k) => k),
    list: new Int32Array(kind.length),
  };
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
  if (kind === DEEP && edgeDepth(t, cell, x, y) <= 0) return 0;
  const corner = cell + row;
  const above = corner + t.cols + 1;
  const fu = u - col;
  const fv = v - row;
  const low = t.depth[corner]! * (1 - fu) + t.depth[corner + 1]! * fu;
  const high = t.depth[above]! * (1 - fu) + t.depth[above + 1]! * fu;
  return low * (1 - fv) + high * fv;
}

/** `gap` less the signed distance to the nearest sum, among those that matter in the cell. */
function edgeDepth(t: NoFit, cell: number, x: number, y: number): number {
  const { near, gap } = t;
  const { edges, first } = t.sums;
  const end = t.starts[cell + 1]!;
  let deepest = 0;
  for (let k = t.starts[cell]!; k < end; ) {
    const sum = near[k]!;
    const after = k + 2 + near[k + 1]!;
    const limit = gap - deepest;
    let out = -Infinity;
    for (let e = k + 2; e < after; e++) {
      const at = near[e]!;
      const m = edges[at]! * x + edges[at + 1]! * y - edges[at + 2]!;
      if (m > out) {
        out = m;
        if (m >= limit) break;
      }
    }
    k = after;
    if (out >= limit) continue;
    const depth = gap - (out <= 0 ? out : outsideDistance(edges, first[sum]!, first[sum + 1]!, x, y));
    if (depth > deepest) deepest = depth;
  }
  return deepest;
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
