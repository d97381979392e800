import { arctangent } from "./arctangent.ts";
import { bulgeFromSweep } from "./bulge.ts";
import { nearestOn } from "./contains.ts";
import type { Path, Segment, Vertex } from "./curve.ts";
import { cross, distance, dot, type Point, subtract } from "./point.ts";
import { segments } from "./segment.ts";
import { ARC_FITTING_MM, SAME_POINT_MM } from "./tolerance.ts";

/**
 * Two arcs that leave `from` along `out` and reach `to` along `into`, with equal tangent lengths, sharing a
 * tangent where they meet.
 *
 * Shape: a path of three vertices; an arc may be straight. Errors: RangeError where the ends are one point
 * or an arc would turn more than half round.
 * Source: K. M. Bolton, Biarc curves, Computer-Aided Design 7 (1975), equal tangent lengths.
 */
export function biarc<F extends string>(
  from: Point<F>,
  out: Point<NoInfer<F>>,
  to: Point<NoInfer<F>>,
  into: Point<NoInfer<F>>,
): Path<F> {
  const v = subtract<F>(to, from);
  if (Math.hypot(v.x, v.y) <= SAME_POINT_MM) throw new RangeError("a biarc needs two different ends");
  const [t1, t2] = [unit<F>(out), unit<F>(into)];
  const d = tangentLength(v, t1, t2);
  const joint: Point<F> = {
    x: (from.x + to.x + d * (t1.x - t2.x)) / 2,
    y: (from.y + to.y + d * (t1.y - t2.y)) / 2,
  };
  const vertices: Vertex<F>[] = [
    { x: from.x, y: from.y, bulge: tangentBulge(t1, subtract<F>(joint, from)) },
    // The second arc is the one that leaves `to` backwards, seen from its other end.
    { x: joint.x, y: joint.y, bulge: -tangentBulge({ x: -t2.x, y: -t2.y }, subtract<F>(joint, to)) },
    { x: to.x, y: to.y, bulge: 0 },
  ];
  return { closed: false, vertices };
}

function tangentLength(v: Point, t1: Point, t2: Point): number {
  const vv = dot(v, v);
  const vt = dot(v, t1) + dot(v, t2);
  const spread = 2 * (1 - dot(t1, t2));
  // With nearly equal tangents the stable form of the same root; both terms vanish only when the chord is
  // square to them, and then the two arcs are half turns whatever the tangent length.
  const root = Math.sqrt(vt * vt + spread * vv);
  if (vt > 0) return vv / (vt + root);
  return spread > 0 ? (root - vt) / spread : 0;
}

/** The bulge of the arc that leaves along `tangent` and ends `chord` further. */
function tangentBulge(tangent: Point, chord: Point): number {
  return bulgeFromSweep(2 * arctangent(cross(tangent, chord), dot(tangent, chord)));
}

function unit<F extends string>(p: Point<F>): Point<F> {
  const length = Math.hypot(p.x, p.y);
  return { x: p.x / length, y: p.y / length };
}

/** A smooth curve, at `u` from 0 to 1. */
export type SmoothCurve<F extends string = string> = (u: number) => {
  readonly point: Point<F>;
  readonly direction: Point<F>;
  /** Positive where it turns left, 1/mm. */
  readonly curvature: number;
};

/**
 * A smooth curve as arcs that share their tangents: as many biarcs, equal in `u`, as keep within `tolerance`.
 *
 * The bound is kept between the places looked at, too, as long as curvature rises or falls steadily there:
 * the distance to an arc bends by no more than the curvatures differ.
 */
export function fitBiarcs<F extends string>(
  curve: SmoothCurve<F>,
  tolerance: number = ARC_FITTING_MM,
): Path<F> {
  for (let count = 1; ; count++) {
    const vertices: Vertex<F>[] = [];
    for (let i = 0; i < count; i++) {
      const piece = pieceOf(curve, i / count, (i + 1) / count, tolerance);
      if (piece === undefined) break;
      vertices.push(...(i < count - 1 ? piece.vertices.slice(0, -1) : piece.vertices));
    }
    if (vertices.length > 2 * count) return { closed: false, vertices };
  }
}

/** Places looked at in every biarc. */
const LOOKS = 16;

function pieceOf<F extends string>(
  curve: SmoothCurve<F>,
  from: number,
  to: number,
  tolerance: number,
): Path<F> | undefined {
  const looks = Array.from({ length: LOOKS + 1 }, (_, i) => curve(from + ((to - from) * i) / LOOKS));
  const [start, end] = [looks[0]!, looks[LOOKS]!];
  const path = biarc(start.point, start.direction, end.point, end.direction);
  const arcs = segments(path);
  const near = looks.map(({ point }) => {
    const [first, second] = arcs.map((arc) => ({ arc, gap: distance(nearestOn(arc, point), point) }));
    return second === undefined || first!.gap < second.gap ? first! : second;
  });
  const within = near.slice(1).every((here, i) => {
    const before = near[i]!;
    const step = distance(looks[i]!.point, looks[i + 1]!.point);
    const bends = [looks[i]!, looks[i + 1]!].flatMap(({ curvature }) =>
      [before.arc, here.arc].map((arc) => Math.abs(curvature - curvatureOf(arc))),
    );
    return Math.max(before.gap, here.gap) + (Math.max(...bends) * step * step) / 8 <= tolerance;
  });
  return within ? path : undefined;
}

function curvatureOf(s: Segment): number {
  return s.kind === "line" ? 0 : Math.sign(s.sweep) / s.radius;
}
