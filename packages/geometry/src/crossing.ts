import { nearestOn } from "./contains.ts";
import type { Segment } from "./curve.ts";
import { cross, distance, dot, type Point, subtract } from "./point.ts";
import { SAME_ANGLE, SAME_POINT_MM } from "./tolerance.ts";

/** Where two segments meet: crossing, touching, or the ends of a stretch that they share. */
export function meetings<F extends string>(a: Segment<F>, b: Segment<F>): Point<F>[] {
  const found: Point<F>[] = [];
  const candidates = [...carrierCrossings(a, b), a.from, a.to, b.from, b.to];
  for (const p of candidates) {
    const onBoth =
      distance(nearestOn(a, p), p) <= SAME_POINT_MM && distance(nearestOn(b, p), p) <= SAME_POINT_MM;
    if (onBoth && !found.some((q) => distance(p, q) <= SAME_POINT_MM)) found.push(p);
  }
  return found;
}

/** Where the endless lines and full circles through two segments cross; a miss by up to `miss` is a touch. */
export function carrierCrossings<F extends string>(
  a: Segment<F>,
  b: Segment<F>,
  miss: number = SAME_POINT_MM,
): Point<F>[] {
  if (a.kind === "line" && b.kind === "line") return lineLine(a, b);
  if (a.kind === "line") return lineCircle(a, b as Circle<F>, miss);
  if (b.kind === "line") return lineCircle(b, a, miss);
  return circleCircle(a, b, miss);
}

interface Straight<F extends string> {
  readonly from: Point<F>;
  readonly to: Point<F>;
}

interface Circle<F extends string> {
  readonly centre: Point<F>;
  readonly radius: number;
}

function lineLine<F extends string>(a: Straight<F>, b: Straight<F>): Point<F>[] {
  const [d, e] = [subtract<F>(a.to, a.from), subtract<F>(b.to, b.from)];
  const spread = cross(d, e);
  if (Math.abs(spread) <= SAME_ANGLE * Math.hypot(d.x, d.y) * Math.hypot(e.x, e.y)) return [];
  const t = cross(subtract<F>(b.from, a.from), e) / spread;
  return [{ x: a.from.x + d.x * t, y: a.from.y + d.y * t }];
}

function lineCircle<F extends string>(
  line: Straight<F>,
  { centre, radius }: Circle<F>,
  miss: number,
): Point<F>[] {
  const d = subtract<F>(line.to, line.from);
  const length = Math.hypot(d.x, d.y);
  const u: Point<F> = { x: d.x / length, y: d.y / length };
  const t = dot(u, subtract<F>(centre, line.from));
  const foot: Point<F> = { x: line.from.x + u.x * t, y: line.from.y + u.y * t };
  return chordEnds(foot, u, distance(foot, centre) - radius, radius, miss);
}

function circleCircle<F extends string>(a: Circle<F>, b: Circle<F>, miss: number): Point<F>[] {
  const gap = distance(a.centre, b.centre);
  if (gap <= SAME_POINT_MM) return [];
  const u: Point<F> = { x: (b.centre.x - a.centre.x) / gap, y: (b.centre.y - a.centre.y) / gap };
  // Along the line of centres, from a's centre to the chord that the circles share.
  const t = (gap * gap + a.radius * a.radius - b.radius * b.radius) / (2 * gap);
  const foot: Point<F> = { x: a.centre.x + u.x * t, y: a.centre.y + u.y * t };
  return chordEnds(foot, { x: -u.y, y: u.x }, Math.abs(t) - a.radius, a.radius, miss);
}

/** The ends of the chord that stands `over` beyond its circle (less than 0 within); one where it grazes. */
function chordEnds<F extends string>(
  foot: Point<F>,
  u: Point<F>,
  over: number,
  radius: number,
  miss: number,
): Point<F>[] {
  if (over > miss) return [];
  if (over > -GRAZE_MM) return [foot];
  // The product form keeps its digits where the chord is short.
  const half = Math.sqrt(-over * (2 * radius + over));
  return [
    { x: foot.x - u.x * half, y: foot.y - u.y * half },
    { x: foot.x + u.x * half, y: foot.y + u.y * half },
  ];
}

/** Two crossings that lie less deep than this are one touch. */
const GRAZE_MM: number = SAME_POINT_MM / 100;

/** The nearest point of the endless line or the full circle. */
export function ontoCarrier(carrier: Segment, p: Point): Point {
  if (carrier.kind === "line") {
    const d = subtract(carrier.to, carrier.from);
    const t = dot(subtract(p, carrier.from), d) / dot(d, d);
    return { x: carrier.from.x + d.x * t, y: carrier.from.y + d.y * t };
  }
  const out = subtract(p, carrier.centre);
  const stretch = carrier.radius / Math.hypot(out.x, out.y);
  return { x: carrier.centre.x + out.x * stretch, y: carrier.centre.y + out.y * stretch };
}

export function offCarrier(carrier: Segment, p: Point): number {
  return distance(p, ontoCarrier(carrier, p));
}
