import { arctangent } from "./arctangent.ts";
import { arcFromBulge, bulgeFromSweep } from "./bulge.ts";
import type { Arc, Curve, Loop, Path, Segment, Vertex } from "./curve.ts";
import { once } from "./once.ts";
import { backwards } from "./placement.ts";
import { distance, type Point } from "./point.ts";
import { cosine, sine } from "./sine.ts";
import { SAME_ANGLE, SAME_POINT_MM } from "./tolerance.ts";

/** The lines and arcs of a curve, in order; those of no length are dropped. */
export function segments<F extends string>(curve: Curve<F>): readonly Segment<F>[] {
  // They lie in the frame of the curve that they were cut from.
  return segmentsOf(curve) as readonly Segment<F>[];
}

/** Every measure of a curve asks for them, a hundred times over for a rim that is held against an outline. */
const segmentsOf = once(({ vertices, closed }: Curve): readonly Segment[] => {
  const found: Segment[] = [];
  const count = closed ? vertices.length : vertices.length - 1;
  for (let i = 0; i < count; i++) {
    const from = vertices[i]!;
    const to = vertices[(i + 1) % vertices.length]!;
    if (distance(from, to) <= SAME_POINT_MM) continue;
    found.push(segment(from, to, from.bulge));
  }
  return found;
});

/** A bend of less is a line: its centre would lie so far off that float noise outgrew the bend. */
const STRAIGHT_MM: number = SAME_POINT_MM / 10;

export function segment<F extends string>(from: Point<F>, to: Point<NoInfer<F>>, bulge: number): Segment<F> {
  const start: Point<F> = { x: from.x, y: from.y };
  const end: Point<F> = { x: to.x, y: to.y };
  const rise = (Math.abs(bulge) * distance(start, end)) / 2;
  return rise <= STRAIGHT_MM ? { kind: "line", from: start, to: end } : arcFromBulge(start, end, bulge);
}

/** A loop of segments that follow each other; the last ends where the first starts. */
export function loopOf<F extends string>(list: readonly Segment<F>[]): Loop<F> {
  return { closed: true, vertices: list.flatMap(verticesOf) };
}

/** A path of segments that follow each other. */
export function pathOf<F extends string>(list: readonly Segment<F>[]): Path<F> {
  const last = list.at(-1);
  if (last === undefined) return { closed: false, vertices: [] };
  return { closed: false, vertices: [...list.flatMap(verticesOf), vertex(last.to, 0)] };
}

/** The same curve run the other way: a loop's area changes its sign. */
export function reversed<C extends Curve>(curve: C): C {
  return { ...curve, vertices: backwards(curve.vertices, curve.closed) };
}

export function reversedSegment<F extends string>(s: Segment<F>): Segment<F> {
  const ends = { from: s.to, to: s.from };
  return s.kind === "line" ? { ...s, ...ends } : { ...s, ...ends, sweep: -s.sweep };
}

/** The point a share `t` of the way along a segment. */
export function along<F extends string>(s: Segment<F>, t: number): Point<F> {
  if (t <= 0) return s.from;
  if (t >= 1) return s.to;
  if (s.kind === "line") {
    return { x: s.from.x + (s.to.x - s.from.x) * t, y: s.from.y + (s.to.y - s.from.y) * t };
  }
  if (Math.abs(s.sweep) > Math.PI) return turnedAbout(s.centre, s.from, s.sweep * t);
  // Measured from the chord, a flat arc keeps its digits, however far its centre.
  const size = sine((s.sweep * t) / 2) / sine(s.sweep / 2);
  const turn = (s.sweep * (t - 1)) / 2;
  const [cos, sin] = [size * cosine(turn), size * sine(turn)];
  const [x, y] = [s.to.x - s.from.x, s.to.y - s.from.y];
  return { x: s.from.x + x * cos - y * sin, y: s.from.y + x * sin + y * cos };
}

/** The unit direction of travel a share `t` of the way along a segment. */
export function directionAt<F extends string>(s: Segment<F>, t: number): Point<F> {
  if (s.kind === "line") {
    const length = distance(s.from, s.to);
    return { x: (s.to.x - s.from.x) / length, y: (s.to.y - s.from.y) / length };
  }
  const p = along(s, t);
  const sense = Math.sign(s.sweep) / s.radius;
  return { x: -(p.y - s.centre.y) * sense, y: (p.x - s.centre.x) * sense };
}

/** `p` turned about `centre` by `angle`, counter-clockwise. */
export function turnedAbout<F extends string>(centre: Point<F>, p: Point<F>, angle: number): Point<F> {
  const [cos, sin] = [cosine(angle), sine(angle)];
  const [x, y] = [p.x - centre.x, p.y - centre.y];
  return { x: centre.x + x * cos - y * sin, y: centre.y + x * sin + y * cos };
}

export function segmentLength(s: Segment): number {
  return s.kind === "line" ? distance(s.from, s.to) : s.radius * Math.abs(s.sweep);
}

/** The part of a segment between two points on it. */
export function partOf<F extends string>(s: Segment<F>, from: Point<F>, to: Point<F>): Segment<F> {
  if (s.kind === "line") return { ...s, from, to };
  const [ax, ay] = [from.x - s.centre.x, from.y - s.centre.y];
  const [bx, by] = [to.x - s.centre.x, to.y - s.centre.y];
  const turn = arctangent(ax * by - ay * bx, ax * bx + ay * by);
  // Of the two ways round, the one that the arc takes; back by float noise is no way at all.
  const ahead = turn * s.sweep >= 0 || Math.abs(turn) * s.radius <= SAME_POINT_MM;
  return { ...s, from, to, sweep: ahead ? turn : turn + 2 * Math.PI * Math.sign(s.sweep) };
}

/** An arc of more than half a turn becomes equal arcs that a bulge can say. */
function verticesOf<F extends string>(s: Segment<F>): Vertex<F>[] {
  if (s.kind === "line") return [vertex(s.from, 0)];
  const pieces = Math.max(1, Math.ceil(Math.abs(s.sweep) / (Math.PI + SAME_ANGLE)));
  const bulge = bulgeFromSweep(s.sweep / pieces);
  return Array.from({ length: pieces }, (_, i) => vertex(along<F>(s as Arc<F>, i / pieces), bulge));
}

function vertex<F extends string>(p: Point<F>, bulge: number): Vertex<F> {
  return { x: p.x, y: p.y, bulge };
}
