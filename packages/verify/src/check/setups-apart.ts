import { distance, dot, type Point, subtract } from "@dryfit/geometry";

/**
 * How far a point of the turned sheet can be from where it should lie, mm, when every pin lets the sheet be pushed
 * `play` from side to side.
 *
 * Two pins, a length L apart, let it move along their line by play / 2, and turn. For a point at the share s of the
 * way from one to the other and the height h beside it, the farthest is play / 2 · √λ, λ the greater root of
 * λ² − (1 + 4k² + g²) λ + g² = 0 with k = h / L and g = 1 − 2s. More pins only hold it better, so of all pairs the
 * one that holds best counts: the true figure is never greater.
 * Derived: small displacements of a rigid body with its two pins each within a disc.
 */
export function apartAt(point: Point, pins: readonly Point[], play: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [i, a] of pins.entries())
    for (const b of pins.slice(i + 1)) least = Math.min(least, (play / 2) * lever(point, a, b));
  return least;
}

function lever(point: Point, a: Point, b: Point): number {
  const length = distance(a, b);
  const way = { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
  const to = subtract(point, a);
  const k = (way.x * to.y - way.y * to.x) / length;
  const g = 1 - (2 * dot(way, to)) / length;
  const sum = 1 + 4 * k * k + g * g;
  return Math.sqrt((sum + Math.sqrt(Math.max(0, sum * sum - 4 * g * g))) / 2);
}
