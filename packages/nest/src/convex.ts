import type { Polygon } from "./ring.ts";

/** A convex polygon as x, y, x, y …, counter-clockwise. */
export type Convex = Float64Array;

/**
 * A polygon with holes as convex pieces that share no corner that it has not: ears are clipped, then
 * diagonals that no reflex corner needs are taken out again.
 *
 * Source: S. Hertel, K. Mehlhorn, "Fast triangulation of simple polygons", 1983 (at most four times the fewest).
 */
export function convexPieces(polygon: Polygon): Convex[] {
  const points = polygon.flat();
  const corners = joinHoles(polygon, points);
  const triangles = clipEars(corners, points);
  return mergePieces(triangles, points).map((piece) =>
    Float64Array.from(piece.flatMap((k) => [points[2 * k]!, points[2 * k + 1]!])),
  );
}

/** Corner numbers of the outer ring with every hole spliced in over a bridge that crosses nothing. */
function joinHoles(polygon: Polygon, points: readonly number[]): number[] {
  let first = 0;
  const rings = polygon.map((ring) => {
    const numbers = Array.from({ length: ring.length / 2 }, (_, k) => first + k);
    first += ring.length / 2;
    return numbers;
  });
  let corners = rings[0]!;
  const rightmost = (ring: readonly number[]): number =>
    ring.reduce((a, b) => (points[2 * b]! > points[2 * a]! ? b : a));
  const holes = rings.slice(1).sort((a, b) => points[2 * rightmost(b)]! - points[2 * rightmost(a)]!);
  for (const [h, hole] of holes.entries()) {
    const from = rightmost(hole);
    const others = holes.slice(h);
    const at = corners
      .map((corner, index) => ({ corner, index, far: distance2(points, corner, from) }))
      .sort((a, b) => a.far - b.far || a.index - b.index)
      .find(
        ({ corner, index }) =>
          inCone(corners, index, from, points) &&
          [corners, ...others].every((ring) => !crossesAny(ring, corner, from, points)),
      );
    if (!at) continue;
    const start = hole.indexOf(from);
    const around = [...hole.slice(start), ...hole.slice(0, start), from];
    corners = [...corners.slice(0, at.index + 1), ...around, ...corners.slice(at.index)];
  }
  return corners;
}

/** Does the line to `k` leave corner `index` into the material? */
function inCone(ring: readonly number[], index: number, k: number, points: readonly number[]): boolean {
  const n = ring.length;
  const [before, here, after] = [ring[(index + n - 1) % n]!, ring[index]!, ring[(index + 1) % n]!];
  const convex = turnOf(points, before, here, after) >= 0;
  const left = turnOf(points, here, after, k) > 0;
  const right = turnOf(points, before, here, k) > 0;
  return convex ? left && right : left || right;
}

function crossesAny(ring: readonly number[], a: number, b: number, points: readonly number[]): boolean {
  return ring.some((p, i) => {
    const q = ring[(i + 1) % ring.length]!;
    const shared = same(points, p, a) || same(points, q, a) || same(points, p, b) || same(points, q, b);
    if (shared) {
      // A corner that lies on the bridge would be cut in two by it.
      return [p, q].some((k) => !same(points, k, a) && !same(points, k, b) && lies(points, a, b, k));
    }
    return (
      turnOf(points, a, b, p) * turnOf(points, a, b, q) <= 0 &&
      turnOf(points, p, q, a) * turnOf(points, p, q, b) <= 0
    );
  });
}

function lies(points: readonly number[], a: number, b: number, k: number): boolean {
  const dot =
    (points[2 * k]! - points[2 * a]!) * (points[2 * b]! - points[2 * a]!) +
    (points[2 * k + 1]! - points[2 * a + 1]!) * (points[2 * b + 1]! - points[2 * a + 1]!);
  return turnOf(points, a, b, k) === 0 && dot > 0 && dot < distance2(points, a, b);
}

function clipEars(ring: readonly number[], points: readonly number[]): number[][] {
  const left = [...ring];
  const triangles: number[][] = [];
  while (left.length > 3) {
    const at = bestEar(left, points);
    const n = left.length;
    const ear = [left[(at + n - 1) % n]!, left[at]!, left[(at + 1) % n]!];
    if (turnOf(points, ear[0]!, ear[1]!, ear[2]!) > 0) triangles.push(ear);
    left.splice(at, 1);
  }
  if (left.length === 3 && turnOf(points, left[0]!, left[1]!, left[2]!) > 0) triangles.push(left);
  return triangles;
}

/** The fattest ear; flat corners go first, they hold no wood. Where noise leaves no ear, the corner nearest to one. */
function bestEar(ring: readonly number[], points: readonly number[]): number {
  const n = ring.length;
  let [best, bestScore] = [0, -Infinity];
  for (let i = 0; i < n; i++) {
    const [a, b, c] = [ring[(i + n - 1) % n]!, ring[i]!, ring[(i + 1) % n]!];
    const turn = turnOf(points, a, b, c);
    if (turn === 0) return i;
    const score =
      turn < 0
        ? -1e9
        : turn / Math.max(distance2(points, a, c), distance2(points, a, b), distance2(points, b, c));
    if (score <= bestScore) continue;
    if (turn > 0 && !isEmpty(ring, points, a, b, c)) continue;
    [best, bestScore] = [i, score];
  }
  return best;
}

function isEmpty(
  ring: readonly number[],
  points: readonly number[],
  a: number,
  b: number,
  c: number,
): boolean {
  return !ring.some(
    (k) =>
      !same(points, k, a) &&
      !same(points, k, b) &&
      !same(points, k, c) &&
      turnOf(points, a, b, k) >= 0 &&
      turnOf(points, b, c, k) >= 0 &&
      turnOf(points, c, a, k) >= 0,
  );
}

/** Takes out the longest diagonals first, as long as both sides together stay convex. */
function mergePieces(triangles: readonly number[][], points: readonly number[]): number[][] {
  const pieces: (number[] | null)[] = triangles.map((t) => [...t]);
  const owner = new Map<string, number>();
  const diagonals: [number, number][] = [];
  for (const [t, triangle] of triangles.entries())
    triangle.forEach((a, i) => {
      const b = triangle[(i + 1) % 3]!;
      owner.set(`${a} ${b}`, t);
      if (owner.has(`${b} ${a}`)) diagonals.push([a, b]);
    });
  diagonals.sort((p, q) => distance2(points, q[0], q[1]) - distance2(points, p[0], p[1]));
  for (const [a, b] of diagonals) {
    const [i, j] = [owner.get(`${a} ${b}`)!, owner.get(`${b} ${a}`)!];
    if (i === j) continue;
    const joined = joinAlong(pieces[i]!, pieces[j]!, a, b);
    if (!isConvex(joined, points)) continue;
    pieces[i] = joined;
    for (const [k, from] of pieces[j]!.entries())
      owner.set(`${from} ${pieces[j]![(k + 1) % pieces[j]!.length]!}`, i);
    pieces[j] = null;
  }
  return pieces.filter((piece) => piece !== null);
}

/** `p` holds the edge a → b, `q` the edge b → a. */
function joinAlong(p: readonly number[], q: readonly number[], a: number, b: number): number[] {
  const afterB = p.findIndex((k, i) => k === a && p[(i + 1) % p.length] === b) + 1;
  const afterA = q.findIndex((k, i) => k === b && q[(i + 1) % q.length] === a) + 1;
  const around = (ring: readonly number[], from: number): number[] => [
    ...ring.slice(from),
    ...ring.slice(0, from),
  ];
  return [...around(p, afterB), ...around(q, afterA).slice(1, -1)];
}

function isConvex(ring: readonly number[], points: readonly number[]): boolean {
  const n = ring.length;
  return ring.every((b, i) => {
    const [a, c] = [ring[(i + n - 1) % n]!, ring[(i + 1) % n]!];
    return turnOf(points, a, b, c) >= -1e-12 * (distance2(points, a, b) + distance2(points, b, c));
  });
}

function turnOf(points: readonly number[], a: number, b: number, c: number): number {
  return (
    (points[2 * b]! - points[2 * a]!) * (points[2 * c + 1]! - points[2 * b + 1]!) -
    (points[2 * b + 1]! - points[2 * a + 1]!) * (points[2 * c]! - points[2 * b]!)
  );
}

function same(points: readonly number[], a: number, b: number): boolean {
  return a === b || (points[2 * a] === points[2 * b] && points[2 * a + 1] === points[2 * b + 1]);
}

function distance2(points: readonly number[], a: number, b: number): number {
  const [dx, dy] = [points[2 * a]! - points[2 * b]!, points[2 * a + 1]! - points[2 * b + 1]!];
  return dx * dx + dy * dy;
}
