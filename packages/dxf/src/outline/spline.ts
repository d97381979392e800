import type { Point } from "@dryfit/geometry";

export interface Spline {
  readonly degree: number;
  readonly knots: readonly number[];
  readonly points: readonly Point[];
  readonly weights: readonly number[];
}

/** A rational B-spline as a curve over its own knots; or why there is none. Source: de Boor's algorithm. */
export function splineCurve(
  spline: Spline,
): { readonly at: (t: number) => Point; readonly knots: readonly number[] } | { readonly reason: string } {
  const { degree: p, knots, points, weights } = spline;
  const n = points.length;
  if (!Number.isInteger(p) || p < 1 || p > 10) return { reason: `its degree is ${p}` };
  if (n <= p) return { reason: `it has ${n} control points, fewer than its degree needs` };
  if (knots.length !== n + p + 1) return { reason: `it has ${knots.length} knots where ${n + p + 1} belong` };
  const numbers = [...knots, ...weights, ...points.flatMap(({ x, y }) => [x, y])];
  if (!numbers.every(Number.isFinite)) return { reason: "not all of its numbers are numbers" };
  if (knots.some((knot, i) => i > 0 && knot < knots[i - 1]!)) return { reason: "its knots do not rise" };
  if (weights.some((weight) => weight <= 0)) return { reason: "a weight is not above 0" };
  const [start, end] = [knots[p]!, knots[n]!];
  if (!(end > start)) return { reason: "it has no length" };
  const inner = knots.slice(p, n + 1).filter((knot, i, all) => i === 0 || knot > all[i - 1]!);
  return { at: (t) => deBoor(spline, Math.min(Math.max(t, start), end)), knots: inner };
}

function deBoor({ degree: p, knots, points, weights }: Spline, t: number): Point {
  const n = points.length;
  let span = p;
  while (span < n - 1 && t >= knots[span + 1]!) span++;
  const d = Array.from({ length: p + 1 }, (_, j) => {
    const i = span - p + j;
    const w = weights[i]!;
    return { x: points[i]!.x * w, y: points[i]!.y * w, w };
  });
  for (let r = 1; r <= p; r++)
    for (let j = p; j >= r; j--) {
      const i = span - p + j;
      const room = knots[i + p - r + 1]! - knots[i]!;
      const share = room === 0 ? 0 : (t - knots[i]!) / room;
      const [a, b] = [d[j - 1]!, d[j]!];
      d[j] = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share, w: a.w + (b.w - a.w) * share };
    }
  const { x, y, w } = d[p]!;
  return { x: x / w, y: y / w };
}
