import { type Convex, convexPieces } from "./convex.ts";
import { depthAt, type NoFit, noFit } from "./noFit.ts";
import { type Polygon, polygonArea, ringArea, ringBounds, turnRing } from "./ring.ts";

/** A kind of item and the turns (radians, counter-clockwise) that it may take. */
export interface ItemType {
  readonly polygon: Polygon;
  readonly turns: readonly number[];
}

/** Wood that is not there, or not to be cut, on a sheet; items keep `gap` off it. */
export interface Obstacle {
  readonly polygon: Polygon;
  readonly gap: number;
}

/** Where boxes of items may lie: from x0, y0 to x1, y1, less the obstacles. */
export interface Bin {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly obstacles: readonly Obstacle[];
}

/** An item type in one of its turns, about its own origin. */
export interface Shape {
  readonly type: number;
  /** Index into the type's turns. */
  readonly turn: number;
  readonly pieces: readonly Convex[];
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly area: number;
}

/** Items, shapes and what keeps them apart; no-fit polygons are made when first asked for. */
export interface Problem {
  readonly items: readonly number[];
  readonly shapes: readonly Shape[];
  /** Shape numbers of each type. */
  readonly shapesOf: readonly (readonly number[])[];
  /** Per sheet: shape numbers of its obstacles, which stand at the origin. */
  readonly obstaclesOf: readonly (readonly number[])[];
  readonly bins: readonly Bin[];
  /** The no-fit table for `moving` about `standing`, by offset of their origins times `sign`. */
  table(standing: number, moving: number): NoFit;
  sign(standing: number, moving: number): number;
  /** The widest distance that any two have to keep. */
  readonly widestGap: number;
  /** Longest side of anything, for what is relative. */
  readonly extent: number;
}

export interface ProblemSettings {
  readonly types: readonly ItemType[];
  /** The type of each item. */
  readonly items: readonly number[];
  readonly bins: readonly Bin[];
  readonly gap: number;
  /**
   * Cells along a no-fit table. Changes speed only, never what is free: many cells pay off in searches of seconds,
   * few in those of a moment, where making the tables counts.
   */
  readonly resolution?: number;
}

/** Measured on the strip set: finer tables leave fewer edges to look at, but no longer stay in the processor's cache. */
const RESOLUTION = 24;

export function problemOf({ types, items, bins, gap, resolution }: ProblemSettings): Problem {
  const shapes: Shape[] = [];
  const shapesOf = types.map((type, t) => {
    const own = shapesOfType(type, t);
    shapes.push(...own);
    return own.map((_, k) => shapes.length - own.length + k);
  });
  const firstObstacle = shapes.length;
  const gaps: number[] = [];
  const known = new Map<Polygon, number>();
  const obstaclesOf = bins.map((bin) =>
    bin.obstacles.map((obstacle) => {
      const same = known.get(obstacle.polygon);
      if (same !== undefined && gaps[same - firstObstacle] === obstacle.gap) return same;
      shapes.push(shapeOf(obstacle.polygon, -1, 0));
      gaps.push(obstacle.gap);
      known.set(obstacle.polygon, shapes.length - 1);
      return shapes.length - 1;
    }),
  );
  const gapTo = (shape: number): number => gaps[shape - firstObstacle] ?? gap;
  return {
    items,
    shapes,
    shapesOf,
    obstaclesOf,
    bins,
    ...tablesOf(shapes, firstObstacle, gapTo, resolution ?? RESOLUTION),
    widestGap: Math.max(gap, ...gaps),
    extent: Math.max(...shapes.map((s) => Math.max(s.x1 - s.x0, s.y1 - s.y0))),
  };
}

/** The table for each pair of shapes, shared with the swapped and the half-turned pair. */
function tablesOf(
  shapes: readonly Shape[],
  firstObstacle: number,
  gapTo: (shape: number) => number,
  resolution: number,
): Pick<Problem, "table" | "sign"> {
  const n = shapes.length;
  const tables: (NoFit | undefined)[] = new Array(n * n);
  const signs = new Int8Array(n * n);
  const opposite = shapes.map((shape) => halfTurned(shapes, shape));
  const make = (standing: number, moving: number): NoFit => {
    const [s, m] = [shapes[standing]!, shapes[moving]!];
    const gap = standing >= firstObstacle ? gapTo(standing) : gapTo(moving);
    const grid = standing >= firstObstacle || moving >= firstObstacle ? 2 * resolution : resolution;
    const table = noFit(s.pieces, m.pieces, gap, grid);
    for (const [a, b, sign] of [
      [standing, moving, 1],
      [moving, standing, -1],
      [opposite[standing]!, opposite[moving]!, -1],
      [opposite[moving]!, opposite[standing]!, 1],
    ] as const) {
      if (a < 0 || b < 0) continue;
      tables[a * n + b] = table;
      signs[a * n + b] = sign;
    }
    return table;
  };
  return {
    table: (standing, moving) => tables[standing * n + moving] ?? make(standing, moving),
    sign: (standing, moving) => signs[standing * n + moving]!,
  };
}

/** How deep `moving` lies in `standing`, its origin dx, dy away; 0 where they are apart or touch. */
export function depthOf(problem: Problem, standing: number, moving: number, dx: number, dy: number): number {
  // Far apart, no table need be made.
  const [s, m, gap] = [problem.shapes[standing]!, problem.shapes[moving]!, problem.widestGap];
  if (dx + m.x0 - gap >= s.x1 || dx + m.x1 + gap <= s.x0) return 0;
  if (dy + m.y0 - gap >= s.y1 || dy + m.y1 + gap <= s.y0) return 0;
  const table = problem.table(standing, moving);
  const sign = problem.sign(standing, moving);
  return depthAt(table, sign * dx, sign * dy);
}

/** The shape that is this one turned by exactly half a turn about the same origin; −1 where there is none. */
function halfTurned(shapes: readonly Shape[], shape: Shape): number {
  if (shape.type < 0) return -1;
  const same = (a: number, b: number): boolean => Math.abs(a - b) < 1e-12 * (Math.abs(a) + Math.abs(b));
  return shapes.findIndex(
    (other) =>
      other.type === shape.type &&
      other.pieces.length === shape.pieces.length &&
      other.pieces.every(
        (piece, i) =>
          piece.length === shape.pieces[i]!.length &&
          piece.every((v, k) => v === -shape.pieces[i]![k]! || same(v, -shape.pieces[i]![k]!)),
      ),
  );
}

function shapesOfType(type: ItemType, t: number): Shape[] {
  const own: Shape[] = [];
  const seen: number[][] = [];
  for (const [turn, radians] of type.turns.entries()) {
    const turned = type.polygon.map((ring) => turnRing(ring, radians));
    const print = fingerprint(turned);
    if (seen.some((other) => matches(other, print))) continue;
    seen.push(print);
    own.push(shapeOf(turned, t, turn));
  }
  return own;
}

function shapeOf(polygon: Polygon, type: number, turn: number): Shape {
  const [x0, y0, x1, y1] = ringBounds(polygon[0]!);
  return { type, turn, pieces: convexPieces(polygon), x0, y0, x1, y1, area: Math.abs(polygonArea(polygon)) };
}

/** The same for two turns that lie on each other when shifted: a rectangle's and its half turn's. */
function fingerprint(polygon: Polygon): number[] {
  const [x0, y0] = ringBounds(polygon[0]!);
  const rings = polygon.map((ring) => {
    const n = ring.length;
    let start = 0;
    for (let k = 2; k < n; k += 2)
      if (
        ring[k]! < ring[start]! - 1e-9 ||
        (ring[k]! < ring[start]! + 1e-9 && ring[k + 1]! < ring[start + 1]!)
      )
        start = k;
    return Array.from({ length: n }, (_, k) => ring[(start + k) % n]! - (k % 2 === 0 ? x0 : y0));
  });
  return [rings.length, ...rings.sort((a, b) => ringArea(b) - ringArea(a)).flat()];
}

function matches(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((v, k) => Math.abs(v - b[k]!) < 1e-9 * (1 + Math.abs(v)));
}
