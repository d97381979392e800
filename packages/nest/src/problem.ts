import { type Convex, convexPieces } from "./convex.ts";
import { type Coarseness, coverOf } from "./cover.ts";
import { noFit } from "./noFit.ts";
import { type Polygon, polygonArea, ringArea, ringBounds, turnRing } from "./ring.ts";
import { addTable, depthIn, type Tables, tablesFor } from "./tables.ts";

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
  /** Least x and y, most x and y of each shape. */
  readonly boxes: Float64Array;
  /** A pair of shapes is `standing` times the number of shapes, plus `moving`. */
  readonly tables: Tables;
  /** The pair's table, made when first asked for: as `Tables.ofPair` says. */
  tableOf(pair: number): number;
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
  /** Items of many corners are laid by simpler outlines that hold theirs: quicker, for a little room. */
  readonly coarse?: Coarseness;
}

/** Measured on the strip set: finer tables leave fewer edges to look at, but no longer stay in the processor's cache. */
const RESOLUTION = 24;

export function problemOf({ types, items, bins, gap, resolution, coarse }: ProblemSettings): Problem {
  const shapes: Shape[] = [];
  const shapesOf = types.map((type, t) => {
    const own = shapesOfType(coarse ? simplerType(type, coarse) : type, t);
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
    boxes: Float64Array.from(shapes.flatMap(({ x0, y0, x1, y1 }) => [x0, y0, x1, y1])),
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
): Pick<Problem, "tables" | "tableOf"> {
  const n = shapes.length;
  const tables = tablesFor(n);
  const { ofPair } = tables;
  const opposite = shapes.map((shape) => halfTurned(shapes, shape));
  const make = (pair: number): number => {
    const [standing, moving] = [Math.floor(pair / n), pair % n];
    const [s, m] = [shapes[standing]!, shapes[moving]!];
    const gap = standing >= firstObstacle ? gapTo(standing) : gapTo(moving);
    const grid = standing >= firstObstacle || moving >= firstObstacle ? 2 * resolution : resolution;
    const table = addTable(tables, noFit(s.pieces, m.pieces, gap, grid)) + 1;
    for (const [a, b, signed] of [
      [standing, moving, table],
      [moving, standing, -table],
      [opposite[standing]!, opposite[moving]!, -table],
      [opposite[moving]!, opposite[standing]!, table],
    ] as const)
      if (a >= 0 && b >= 0) ofPair[a * n + b] = signed;
    return ofPair[pair]!;
  };
  return { tables, tableOf: (pair) => ofPair[pair]! || make(pair) };
}

/** How deep `moving` lies in `standing`, its origin dx, dy away; 0 where they are apart or touch. */
export function depthOf(problem: Problem, standing: number, moving: number, dx: number, dy: number): number {
  // Far apart, no table need be made.
  const { boxes, widestGap: gap } = problem;
  const [s, m] = [4 * standing, 4 * moving];
  if (dx + boxes[m]! - gap >= boxes[s + 2]! || dx + boxes[m + 2]! + gap <= boxes[s]!) return 0;
  if (dy + boxes[m + 1]! - gap >= boxes[s + 3]! || dy + boxes[m + 3]! + gap <= boxes[s + 1]!) return 0;
  const table = problem.tableOf(standing * problem.shapes.length + moving);
  const { tables } = problem;
  return table > 0 ? depthIn(tables, table - 1, dx, dy) : depthIn(tables, -table - 1, -dx, -dy);
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

function simplerType(type: ItemType, coarse: Coarseness): ItemType {
  const [outer, ...holes] = type.polygon;
  return { ...type, polygon: [coverOf(outer!, coarse), ...holes] };
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
