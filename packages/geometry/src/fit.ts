import { arctangent } from "./arctangent.ts";
import type { Path, Segment } from "./curve.ts";
import { cross, distance, dot, type Point, subtract } from "./point.ts";
import { pathOf } from "./segment.ts";
import { ARC_FITTING_MM, SAME_ANGLE, SAME_POINT_MM } from "./tolerance.ts";

/** The circle through three points, and the sweep from the first over the second to the third. */
export function arcThrough<F extends string>(
  a: Point<F>,
  b: Point<NoInfer<F>>,
  c: Point<NoInfer<F>>,
): Path<F> {
  return pathOf([segmentThrough(a, b, c)]);
}

function segmentThrough<F extends string>(a: Point<F>, b: Point<F>, c: Point<F>): Segment<F> {
  const [ab, ac] = [subtract(b, a), subtract(c, a)];
  const twice = 2 * cross(ab, ac);
  const reach = distance(a, c);
  if (reach <= SAME_POINT_MM) throw new RangeError("an arc through three points needs two different ends");
  if (Math.abs(twice) <= SAME_ANGLE * reach * reach) return { kind: "line", from: a, to: c };
  const [bb, cc] = [dot(ab, ab), dot(ac, ac)];
  const centre: Point<F> = {
    x: a.x + (ac.y * bb - ab.y * cc) / twice,
    y: a.y + (ab.x * cc - ac.x * bb) / twice,
  };
  // The angle at b over the chord is half of what is left of the full turn.
  const [ba, bc] = [subtract(a, b), subtract(c, b)];
  const atB = arctangent(Math.abs(cross(ba, bc)), dot(ba, bc));
  const sweep = (2 * Math.PI - 2 * atB) * Math.sign(twice);
  return { kind: "arc", from: a, to: c, centre, radius: distance(centre, a), sweep };
}

/**
 * Lines and arcs in place of a run of points: every point and every side between two points is within
 * `tolerance` of the result, which starts and ends on the first and last point.
 */
export function fitArcs<F extends string>(
  points: readonly Point<F>[],
  tolerance: number = ARC_FITTING_MM,
): Path<F> {
  const run = points.filter((p, i) => i === 0 || distance(p, points[i - 1]!) > 0);
  const found: Segment<F>[] = [];
  let start = 0;
  while (start < run.length - 1) {
    const [segment, end] = longestFrom(run, start, tolerance);
    found.push(segment);
    start = end;
  }
  return pathOf(found);
}

/** Reaches ever further while that fits, then ever less far beyond what fitted. */
function longestFrom<F extends string>(
  points: readonly Point<F>[],
  start: number,
  tolerance: number,
): [Segment<F>, number] {
  let end = start + 1;
  let best: Segment<F> = { kind: "line", from: points[start]!, to: points[end]! };
  let doubling = true;
  for (let step = 1; step >= 1; step = doubling ? step * 2 : Math.floor(step / 2)) {
    const further = end + step < points.length ? fitted(points, start, end + step, tolerance) : undefined;
    if (further === undefined) doubling = false;
    else [best, end] = [further, end + step];
  }
  return [best, end];
}

function fitted<F extends string>(
  points: readonly Point<F>[],
  start: number,
  end: number,
  tolerance: number,
): Segment<F> | undefined {
  const [a, b, c] = [points[start]!, points[(start + end) >> 1]!, points[end]!];
  if (distance(a, c) <= SAME_POINT_MM) return undefined;
  const line: Segment<F> = { kind: "line", from: a, to: c };
  for (const s of [line, segmentThrough(a, b, c)]) {
    if (s.kind === "arc" && Math.abs(s.sweep) > Math.PI) continue;
    if (keepsTo(s, points.slice(start, end + 1), tolerance)) return s;
  }
  return undefined;
}

/** Whether the points go along the segment, and they and the sides between them keep within `tolerance`. */
function keepsTo(s: Segment, points: readonly Point[], tolerance: number): boolean {
  return points.slice(1).every((q, i) => {
    const p = points[i]!;
    if (s.kind === "line") {
      const d = subtract(s.to, s.from);
      const off = Math.abs(cross(d, subtract(q, s.from))) / Math.hypot(d.x, d.y);
      return dot(d, subtract(q, p)) > 0 && off <= tolerance;
    }
    const [cp, cq] = [subtract(p, s.centre), subtract(q, s.centre)];
    const side = subtract(q, p);
    const t = Math.max(0, Math.min(1, -dot(cp, side) / dot(side, side)));
    const middle = Math.hypot(cp.x + side.x * t, cp.y + side.y * t);
    return (
      cross(cp, cq) * s.sweep > 0 &&
      Math.abs(Math.hypot(cq.x, cq.y) - s.radius) <= tolerance &&
      Math.abs(middle - s.radius) <= tolerance
    );
  });
}
