import type { Convex } from "./convex.ts";
import { depthField } from "./depthField.ts";
import { minkowski } from "./minkowski.ts";
import { DEEP, EDGE, type Grid, relevantEdges, sortIntoCells } from "./noFitCells.ts";
import { lineDistance, type Sums, sumsBounds, sumsOf } from "./sums.ts";

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
  readonly grid: Grid;
  /** Per cell: APART, EDGE, INSIDE or DEEP. */
  readonly kind: Uint8Array;
  /** At the cells' corners, cols + 1 a row: below 0 where free. */
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
  const lists = whole ? everywhere(kind) : sortIntoCells(grid, list, sums, gap, kind);
  const depth = whole ? convexDepth(grid, sums, gap) : depthField(grid, kind, lists, sums, gap);
  if (!whole) settleInside(grid, kind, depth);
  const { starts, near } = relevantEdges(grid, lists, sums, gap, kind);
  return { gap, grid, kind, depth, starts, near, sums };
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

/** The signed depth in a single convex sum, at every corner of the grid. */
function convexDepth(grid: Grid, sums: Sums, gap: number): Float32Array {
  const nx = grid.cols + 1;
  return Float32Array.from({ length: nx * (grid.rows + 1) }, (_, at) => {
    const row = Math.floor(at / nx);
    return gap - lineDistance(sums, 0, grid.x0 + (at - row * nx) * grid.dx, grid.y0 + row * grid.dy);
  });
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
