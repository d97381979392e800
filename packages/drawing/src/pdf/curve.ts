import { type Arc, arctangent, type Curve, cosine, segments, sine, tangentOf } from "@dryfit/geometry";
import { figure } from "./figure.ts";

/** How far a Bézier curve may stand off the arc that it is drawn for, mm: a tenth of what a page may be off. */
const BEZIER_MM = 0.001;

/** The operators that draw a curve: lines, and Bézier curves for arcs. */
export function curveOperators(curve: Curve): readonly string[] {
  const list = segments(curve);
  const [first] = list;
  if (!first) return [];
  return [
    `${at(first.from.x, first.from.y)} m`,
    ...list.flatMap((s) => (s.kind === "line" ? [`${at(s.to.x, s.to.y)} l`] : arcOperators(s))),
    ...(curve.closed ? ["h"] : []),
  ];
}

/**
 * How far the usual Bézier curve stands off an arc of this radius and sweep (radians) at most, always outwards.
 * Source: derived; a quarter turn gives the known 0.000273 of the radius.
 */
export function bezierError(radius: number, sweep: number): number {
  const quarter = Math.abs(sweep) / 4;
  return (radius * (2 / 27) * sine(quarter) ** 6) / cosine(quarter) ** 2;
}

function arcOperators(arc: Arc): readonly string[] {
  const { centre, radius, sweep } = arc;
  let pieces = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2)));
  while (bezierError(radius, sweep / pieces) > BEZIER_MM) pieces++;
  const start = arctangent(arc.from.y - centre.y, arc.from.x - centre.x);
  const reach = (4 / 3) * tangentOf(sweep / pieces / 4) * radius;
  const spots = Array.from({ length: pieces + 1 }, (_, i) => {
    const angle = start + (sweep * i) / pieces;
    const [cos, sin] = [cosine(angle), sine(angle)];
    return (along: number): string =>
      at(centre.x + radius * cos - along * sin, centre.y + radius * sin + along * cos);
  });
  return Array.from({ length: pieces }, (_, i) => {
    const [from, to] = [spots[i]!, spots[i + 1]!];
    const end = i === pieces - 1 ? at(arc.to.x, arc.to.y) : to(0);
    return `${from(reach)} ${to(-reach)} ${end} c`;
  });
}

function at(x: number, y: number): string {
  return `${figure(x)} ${figure(y)}`;
}
