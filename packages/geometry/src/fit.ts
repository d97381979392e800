import { bulgeFromSweep } from "./bulge.ts";
import type { Path, Segment, Vertex } from "./curve.ts";
import { cross, distance, dot, type Point, subtract } from "./point.ts";
import { pathOf } from "./segment.ts";
import { ARC_FITTING_MM, SAME_POINT_MM } from "./tolerance.ts";

/** The circle through three points, and the sweep from the first over the second to the third. */
export function arcThrough<F extends string>(
  a: Point<F>,
  b: Point<NoInfer<F>>,
  c: Point<NoInfer<F>>,
): Path<F> {
  return pathOf([segmentThrough(a, b, c)]);
}

export function segmentThrough<F extends string>(a: Point<F>, b: Point<F>, c: Point<F>): Segment<F> {
  const [ab, ac] = [subtract(b, a), subtract(c, a)];
  const twice = 2 * cross(ab, ac);
  const reach = distance(a, c);
  if (reach <= SAME_POINT_MM) throw new RangeError("an arc through three points needs two different ends");
  // A rise that vanishes in float noise is a line.
  if (Math.abs(twice) <= 1e-9 * reach * reach) return { kind: "line", from: a, to: c };
  const [bb, cc] = [dot(ab, ab), dot(ac, ac)];
  const centre: Point<F> = {
    x: a.x + (ac.y * bb - ab.y * cc) / twice,
    y: a.y + (ab.x * cc - ac.x * bb) / twice,
  };
  // The angle at b over the chord is half of what is left of the full turn.
  const [ba, bc] = [subtract(a, b), subtract(c, b)];
  const atB = Math.atan2(Math.abs(cross(ba, bc)), dot(ba, bc));
  const sweep = (2 * Math.PI - 2 * atB) * Math.sign(twice);
  return { kind: "arc", from: a, to: c, centre, radius: distance(centre, a), sweep };
}

/**
 * Two arcs that leave `from` along `out` and reach `to` along `into`, with equal tangent lengths,
 * sharing a tangent where they meet.
 *
 * Shape: a path of one or two segments. Errors: RangeError where the ends are one point.
 * Source: K. M. Bolton, Biarc curves, Computer-Aided Design 7 (1975), equal-length form.
 */
export function biarc<F extends string>(
  from: Point<F>,
  out: Point<NoInfer<F>>,
  to: Point<NoInfer<F>>,
  into: Point<NoInfer<F>>,
): Path<F> {
  const v = subtract<F>(to, from);
  if (Math.hypot(v.x, v.y) <= SAME_POINT_MM) throw new RangeError("a biarc needs two different ends");
  const [t1, t2] = [unit(out), unit(into)];
  const t: Point<F> = { x: t1.x + t2.x, y: t1.y + t2.y };
  const d = tangentLength(v, t, t1, t2);
  const joint: Point<F> = {
    x: (from.x + to.x + d * (t1.x - t2.x)) / 2,
    y: (from.y + to.y + d * (t1.y - t2.y)) / 2,
  };
  const vertices: Vertex<F>[] = [
    { x: from.x, y: from.y, bulge: tangentBulge(t1, subtract<F>(joint, from)) },
    { x: joint.x, y: joint.y, bulge: -tangentBulge({ x: -t2.x, y: -t2.y }, subtract<F>(joint, to)) },
    { x: to.x, y: to.y, bulge: 0 },
  ];
  return { closed: false, vertices };
}

function tangentLength(v: Point, t: Point, t1: Point, t2: Point): number {
  const vv = dot(v, v);
  const vt = dot(v, t);
  const spread = 2 * (1 - dot(t1, t2));
  if (spread <= 1e-12) {
    const along = dot(v, t2);
    // Parallel tangents square to the chord: two half turns, whatever their lengths.
    if (Math.abs(along) <= 1e-12 * Math.sqrt(vv)) return 0;
    return vv / (4 * along);
  }
  return (-vt + Math.sqrt(vt * vt + spread * vv)) / spread;
}

/** The bulge of the arc that leaves along `tangent` and ends `chord` further. */
function tangentBulge(tangent: Point, chord: Point): number {
  return bulgeFromSweep(2 * Math.atan2(cross(tangent, chord), dot(tangent, chord)));
}

function unit<F extends string>(p: Point<F>): Point<F> {
  const length = Math.hypot(p.x, p.y);
  return { x: p.x / length, y: p.y / length };
}

/**
 * Lines and arcs in place of a run of points: every point and every side between two points is within
 * `tolerance` of the result, which starts and ends on the first and last point.
 */
export function fitArcs<F extends string>(
  points: readonly Point<F>[],
  tolerance: number = ARC_FITTING_MM,
): Path<F> {
  const found: Segment<F>[] = [];
  let start = 0;
  while (start < points.length - 1) {
    let [good, step] = [start + 1, 1];
    while (step >= 1) {
      const end = Math.min(good + step, points.length - 1);
      if (end > good && fitted(points, start, end, tolerance) !== undefined) {
        good = end;
        step *= 2;
      } else step = end === good ? 0 : step / 2;
    }
    found.push(fitted(points, start, good, tolerance)!);
    start = good;
  }
  return pathOf(found);
}

function fitted<F extends string>(
  points: readonly Point<F>[],
  start: number,
  end: number,
  tolerance: number,
): Segment<F> | undefined {
  const [a, b, c] = [points[start]!, points[(start + end) >> 1]!, points[end]!];
  if (end - start === 1) return { kind: "line", from: a, to: c };
  if (distance(a, c) <= SAME_POINT_MM) return undefined;
  const s = segmentThrough(a, b, c);
  if (s.kind === "arc" && Math.abs(s.sweep) > Math.PI) return undefined;
  for (let i = start; i < end; i++) {
    if (!sideFits(s, points[i]!, points[i + 1]!, tolerance)) return undefined;
  }
  return s;
}

function sideFits(s: Segment, p: Point, q: Point, tolerance: number): boolean {
  if (s.kind === "line") {
    const d = subtract(s.to, s.from);
    const length = Math.hypot(d.x, d.y);
    const ahead = dot(d, subtract(q, p)) > 0;
    return ahead && Math.abs(cross(d, subtract(q, s.from))) / length <= tolerance;
  }
  const [cp, cq] = [subtract(p, s.centre), subtract(q, s.centre)];
  const ahead = cross(cp, cq) * s.sweep > 0;
  const side = subtract(q, p);
  const t = Math.max(0, Math.min(1, -dot(cp, side) / dot(side, side)));
  const closest = Math.hypot(cp.x + side.x * t, cp.y + side.y * t);
  const within = (r: number): boolean => Math.abs(r - s.radius) <= tolerance;
  return ahead && within(Math.hypot(cq.x, cq.y)) && within(closest);
}
