import { arctangent } from "./arctangent.ts";
import type { Curve, Loop, Region, Segment } from "./curve.ts";
import { once } from "./once.ts";
import type { Box, Point } from "./point.ts";
import { along, directionAt, segmentLength, segments } from "./segment.ts";
import { sine } from "./sine.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

export function lengthOf(curve: Curve): number {
  return segments(curve).reduce((sum, s) => sum + segmentLength(s), 0);
}

/** Positive where the loop runs counter-clockwise, mm². */
export function signedArea(loop: Loop): number {
  const origin = loop.vertices[0];
  if (origin === undefined) return 0;
  let twice = 0;
  for (const s of segments(loop)) {
    // About the first vertex: far from the frame's origin the products would drown small areas.
    const [ax, ay] = [s.from.x - origin.x, s.from.y - origin.y];
    const [bx, by] = [s.to.x - origin.x, s.to.y - origin.y];
    twice += ax * by - ay * bx;
    if (s.kind === "arc") twice += s.radius * s.radius * (s.sweep - sine(s.sweep));
  }
  return twice / 2;
}

export function areaOf(regions: readonly Region[]): number {
  let area = 0;
  for (const { outer, holes } of regions) {
    area += signedArea(outer);
    for (const hole of holes) area += signedArea(hole);
  }
  return area;
}

/** The smallest upright box round everything. Errors: RangeError where there is nothing. */
export function boundsOf<F extends string>(curves: Curve<F> | readonly Curve<F>[]): Box<F> {
  // Boxes forget the frame; the curves that they were drawn round remember it.
  if ("closed" in curves && curves.vertices.length > 0) return boxOfCurve(curves) as Box<F>;
  const list = "closed" in curves ? [] : curves;
  const boxes = list.filter(({ vertices }) => vertices.length > 0).map(boxOfCurve);
  if (boxes.length === 0) throw new RangeError("nothing has no bounds");
  return boxRound(boxes.flatMap(({ min, max }) => [min, max])) as Box<F>;
}

/** Asked again and again of the same outlines. */
const boxOfCurve = once(
  (curve: Curve): Box => boxRound([...curve.vertices, ...segments(curve).flatMap(extremes)]),
);

export function boxOf<F extends string>(s: Segment<F>): Box<F> {
  return boxRound([s.from, s.to, ...extremes(s)]);
}

function boxRound<F extends string>(points: readonly Point<F>[]): Box<F> {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    if (x < x0) x0 = x;
    if (y < y0) y0 = y;
    if (x > x1) x1 = x;
    if (y > y1) y1 = y;
  }
  return { min: { x: x0, y: y0 }, max: { x: x1, y: y1 } };
}

/** The point a distance `s` along a curve; a loop goes round again, a path stops at its ends. */
export function pointAt<F extends string>(curve: Curve<F>, s: number): Point<F> {
  const [found, t] = segmentAt(curve, s);
  return along(found, t);
}

/** The unit direction of travel a distance `s` along a curve; at a corner, of the segment that starts. */
export function tangentAt<F extends string>(curve: Curve<F>, s: number): Point<F> {
  const [found, t] = segmentAt(curve, s);
  return directionAt(found, t);
}

function segmentAt<F extends string>(curve: Curve<F>, s: number): [Segment<F>, number] {
  const list = segments(curve);
  const last = list.at(-1);
  if (last === undefined) throw new RangeError("a curve of no length has no point along it");
  const total = list.reduce((sum, one) => sum + segmentLength(one), 0);
  let rest = curve.closed ? s - Math.floor(s / total) * total : Math.max(0, Math.min(s, total));
  for (const one of list) {
    const length = segmentLength(one);
    if (rest < length) return [one, rest / length];
    rest -= length;
  }
  return [last, 1];
}

/** Where an arc runs level or upright between its ends; the ends themselves are exact already. */
function extremes<F extends string>(s: Segment<F>): Point<F>[] {
  if (s.kind === "line") return [];
  const { centre, radius, sweep } = s;
  const start = arctangent(s.from.y - centre.y, s.from.x - centre.x);
  const same = SAME_POINT_MM / radius;
  const [low, high] = sweep > 0 ? [start + same, start + sweep - same] : [start + sweep + same, start - same];
  const found: Point<F>[] = [];
  for (let quarter = Math.ceil(low / (Math.PI / 2)); quarter * (Math.PI / 2) <= high; quarter++) {
    const side = ((quarter % 4) + 4) % 4;
    found.push({
      x: centre.x + (side === 0 ? radius : side === 2 ? -radius : 0),
      y: centre.y + (side === 1 ? radius : side === 3 ? -radius : 0),
    });
  }
  return found;
}
