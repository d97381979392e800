import type { ChordRing } from "./chords.ts";
import { GRID_MM } from "./clipper.ts";
import type { Segment } from "./curve.ts";
import { distance, type Point } from "./point.ts";

/** Finds which line or arc a side of a clipped ring came from. */
export interface SideIndex {
  /** The owner of the side between two points, or nothing where the clipper made it up. */
  ownerOf(from: Point, to: Point): Segment | undefined;
}

/** A clipped side lies on the side that it came from but for rounding at either end. */
const REACH_MM: number = 3 * GRID_MM;

/** Sides in one box of the lowest level, and boxes in one box of the next. */
const FAN = 8;

/**
 * Sides in the order of their rings are near each other, so boxes over runs of them, and boxes over runs
 * of boxes, make a search tree without sorting.
 */
export function sideIndex(rings: readonly ChordRing[]): SideIndex {
  const ends: number[] = [];
  const owners: Segment[] = [];
  for (const { points, owners: ringOwners } of rings) {
    points.forEach((p, i) => {
      const owner = ringOwners[i];
      const q = points[(i + 1) % points.length]!;
      if (owner === undefined) return;
      ends.push(rounded(p.x), rounded(p.y), rounded(q.x), rounded(q.y));
      owners.push(owner);
    });
  }
  const levels = boxLevels(ends);
  let last = 0;

  /** How far the shorter of two sides strays from the longer one's line, if they run together at all. */
  const stray = (side: number, from: Point, to: Point): number => {
    const p: Point = { x: ends[4 * side]!, y: ends[4 * side + 1]! };
    const q: Point = { x: ends[4 * side + 2]!, y: ends[4 * side + 3]! };
    const [own, given] = [distance(p, q), distance(from, to)];
    if (own >= given) return Math.max(offSide(from, p, q), offSide(to, p, q));
    // The clipper may join sides in line; but a crumb lies along anything.
    if (own < given / 2) return Infinity;
    return Math.max(offSide(p, from, to), offSide(q, from, to));
  };

  const ownerOf = (from: Point, to: Point): Segment | undefined => {
    // Sides mostly come in their old order, one way or the other.
    for (const side of [last + 1, last - 1, last]) {
      if (side >= 0 && side < owners.length && stray(side, from, to) <= GRID_MM) {
        last = side;
        return owners[side];
      }
    }
    let [best, least] = [-1, REACH_MM];
    for (const side of sidesNear(levels, owners.length, (from.x + to.x) / 2, (from.y + to.y) / 2)) {
      const gap = stray(side, from, to);
      if (gap < least) [best, least] = [side, gap];
    }
    if (best < 0) return undefined;
    last = best;
    return owners[best];
  };
  return { ownerOf };
}

function rounded(x: number): number {
  return Math.round(x / GRID_MM) * GRID_MM;
}

function offSide(p: Point, from: Point, to: Point): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : ((p.x - from.x) * dx + (p.y - from.y) * dy) / square;
  const share = Math.max(0, Math.min(1, t));
  return Math.hypot(p.x - from.x - dx * share, p.y - from.y - dy * share);
}

/** Four numbers a box: x and y of its lower left and upper right corner; the first level is the lowest. */
type Level = Float64Array;

function boxLevels(ends: readonly number[]): Level[] {
  let boxes = new Float64Array(ends.length);
  for (let i = 0; i < ends.length; i += 4) {
    boxes[i] = Math.min(ends[i]!, ends[i + 2]!) - REACH_MM;
    boxes[i + 1] = Math.min(ends[i + 1]!, ends[i + 3]!) - REACH_MM;
    boxes[i + 2] = Math.max(ends[i]!, ends[i + 2]!) + REACH_MM;
    boxes[i + 3] = Math.max(ends[i + 1]!, ends[i + 3]!) + REACH_MM;
  }
  const levels = [boxes];
  while (boxes.length > 4 * FAN) {
    const above = new Float64Array(4 * Math.ceil(boxes.length / 4 / FAN));
    for (let b = 0; b < above.length / 4; b++) {
      const [first, end] = [4 * FAN * b, Math.min(4 * FAN * (b + 1), boxes.length)];
      let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
      for (let i = first; i < end; i += 4) {
        x0 = Math.min(x0, boxes[i]!);
        y0 = Math.min(y0, boxes[i + 1]!);
        x1 = Math.max(x1, boxes[i + 2]!);
        y1 = Math.max(y1, boxes[i + 3]!);
      }
      above.set([x0, y0, x1, y1], 4 * b);
    }
    levels.push(above);
    boxes = above;
  }
  return levels;
}

/** Every side whose box holds (x, y), in order. */
function sidesNear(levels: readonly Level[], count: number, x: number, y: number): number[] {
  const found: number[] = [];
  const visit = (level: number, first: number, end: number): void => {
    const boxes = levels[level]!;
    for (let b = first; b < end; b++) {
      const i = 4 * b;
      if (x < boxes[i]! || y < boxes[i + 1]! || x > boxes[i + 2]! || y > boxes[i + 3]!) continue;
      if (level === 0) found.push(b);
      else visit(level - 1, b * FAN, Math.min((b + 1) * FAN, levels[level - 1]!.length / 4));
    }
  };
  if (count > 0) visit(levels.length - 1, 0, levels.at(-1)!.length / 4);
  return found;
}
