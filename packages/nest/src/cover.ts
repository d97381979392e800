import { type Ring, ringArea, ringBounds } from "./ring.ts";

/** How far an outline may be made simpler for a search. */
export interface Coarseness {
  /** Outlines of no more corners stay as they are. */
  readonly corners: number;
  /** The share of its area by which an outline may grow. */
  readonly growth: number;
}

/**
 * An outline with fewer corners that holds the whole of the given one: dents are filled and ends of short sides drawn
 * out to points, the least area first. What keeps clear of it keeps clear of the true outline; its box stays the same.
 *
 * `ring` runs counter-clockwise and crosses itself nowhere; nor does the answer.
 */
export function coverOf(ring: Ring, { corners, growth }: Coarseness): Ring {
  const left = Array.from({ length: ring.length / 2 }, (_, i): Corner => [ring[2 * i]!, ring[2 * i + 1]!]);
  const [x0, y0, x1, y1] = ringBounds(ring);
  const isWithin = ([x, y]: Corner): boolean => x >= x0 && x <= x1 && y >= y0 && y <= y1;
  let room = growth * ringArea(ring);
  while (left.length > Math.max(corners, 4)) {
    const simpler = left
      .flatMap((_, i) => [filled(left, i), drawnOut(left, i)])
      .filter((one): one is Simpler => one !== null && one.area <= room && one.by.every(isWithin))
      .sort((a, b) => a.area - b.area)
      .find((one) => isClear(left, one));
    if (simpler === undefined) break;
    room -= simpler.area;
    replace(left, simpler);
  }
  return left.flat();
}

type Corner = readonly [x: number, y: number];

/** Corners `from`, `from` + 1 … that one other replaces, or none: the outline grows by the triangle between them. */
interface Simpler {
  readonly from: number;
  readonly count: number;
  readonly by: readonly Corner[];
  readonly triangle: readonly [Corner, Corner, Corner];
  readonly area: number;
}

/** A dent, or a corner that is none, cut across. */
function filled(left: readonly Corner[], i: number): Simpler | null {
  const [a, b, c] = [at(left, i - 1), at(left, i), at(left, i + 1)];
  const area = -turn(a, b, c) / 2;
  return area < 0 ? null : { from: i, count: 1, by: [], triangle: [a, c, b], area };
}

/** A side whose neighbours meet outside, drawn out to where they do. */
function drawnOut(left: readonly Corner[], i: number): Simpler | null {
  const [a, b, c, d] = [at(left, i - 1), at(left, i), at(left, i + 1), at(left, i + 2)];
  if (turn(a, b, c) <= 0 || turn(b, c, d) <= 0) return null;
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const across = ux * vy - uy * vx;
  // Turned by less than half a turn together, they meet in front of the side.
  if (across <= 1e-9 * Math.hypot(ux, uy) * Math.hypot(vx, vy)) return null;
  const t = ((c[0] - b[0]) * vy - (c[1] - b[1]) * vx) / across;
  const tip: Corner = [b[0] + t * ux, b[1] + t * uy];
  return { from: i, count: 2, by: [tip], triangle: [b, tip, c], area: Math.abs(turn(b, tip, c)) / 2 };
}

/** Whether nothing of the outline lies in the triangle by which it would grow. */
function isClear(left: readonly Corner[], { from, count, by, triangle }: Simpler): boolean {
  const n = left.length;
  const [p, q, r] = triangle;
  const own = new Set(Array.from({ length: count + 2 }, (_, k) => (from - 1 + k + n) % n));
  // The sides that the outline gets: those of the triangle that are not its own now.
  const fresh: readonly (readonly [Corner, Corner])[] =
    by.length === 0
      ? [[p, q]]
      : [
          [p, q],
          [q, r],
        ];
  return left.every((corner, i) => {
    const next = (i + 1) % n;
    if (!own.has(i) && holds(triangle, corner)) return false;
    if (own.has(i) || own.has(next)) return true;
    return fresh.every(([a, b]) => !crosses(a, b, corner, left[next]!));
  });
}

function replace(left: Corner[], { from, count, by }: Simpler): void {
  const n = left.length;
  if (from + count <= n) left.splice(from, count, ...by);
  else {
    left.splice(from, n - from, ...by);
    left.splice(0, from + count - n);
  }
}

function at(left: readonly Corner[], i: number): Corner {
  return left[(i + left.length) % left.length]!;
}

/** Twice the area of the triangle, positive where it turns left. */
function turn(a: Corner, b: Corner, c: Corner): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/** On an edge counts, so that no outline ends up touching itself. */
function holds([p, q, r]: Simpler["triangle"], at: Corner): boolean {
  const [a, b, c] = [turn(p, q, at), turn(q, r, at), turn(r, p, at)];
  return (a >= 0 && b >= 0 && c >= 0) || (a <= 0 && b <= 0 && c <= 0);
}

function crosses(a: Corner, b: Corner, c: Corner, d: Corner): boolean {
  return turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0;
}
