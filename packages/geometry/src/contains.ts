import { arctangent } from "./arctangent.ts";
import type { Curve, Loop, Region, Segment } from "./curve.ts";
import { boxOf } from "./measure.ts";
import { once } from "./once.ts";
import { distance, type Point } from "./point.ts";
import { along, segments } from "./segment.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

export type Side = "inside" | "edge" | "outside";

/** Where a point lies; "edge" is within SAME_POINT_MM of the boundary. Winding does not matter. */
export function contains<F extends string>(shape: Region<F> | Loop<F>, p: Point<NoInfer<F>>): Side {
  const loops = "outer" in shape ? [shape.outer, ...shape.holes] : [shape];
  let crossings = 0;
  for (const loop of loops) {
    const list = segments(loop);
    const { boxes } = sizesOf(loop);
    for (let i = 0; i < list.length; i++) {
      // Above or below the segment no ray crosses it, and it is not near.
      if (p.y < boxes[4 * i + 1]! - APART_MM || p.y > boxes[4 * i + 3]! + APART_MM) continue;
      const s = list[i]!;
      if (beyond(boxes, i, p) <= APART_MM && distance(nearestOn(s, p), p) <= SAME_POINT_MM) return "edge";
      crossings += crossingsRightOf(s, p);
    }
  }
  return crossings % 2 === 1 ? "inside" : "outside";
}

export function distanceTo<F extends string>(curve: Curve<F>, p: Point<NoInfer<F>>): number {
  return nearest(curve, p).distance;
}

export interface Nearest<F extends string = string> {
  readonly point: Point<F>;
  readonly distance: number;
  /** How far along the curve it lies, mm. */
  readonly s: number;
}

/** The curve's point nearest to `p`; the first of several. Errors: RangeError on an empty curve. */
export function nearest<F extends string>(curve: Curve<F>, p: Point<NoInfer<F>>): Nearest<F> {
  let best: Nearest<F> | undefined;
  const list = segments(curve);
  const { boxes, starts } = sizesOf(curve);
  for (let i = 0; i < list.length; i++) {
    if (best !== undefined && beyond(boxes, i, p) > best.distance + APART_MM) continue;
    const s = list[i]!;
    const t = shareNearest(s, p);
    const candidate = along(s, t);
    const gap = distance(candidate, p);
    if (best !== undefined && !(gap < best.distance)) continue;
    const length = s.kind === "line" ? distance(s.from, s.to) : s.radius * Math.abs(s.sweep);
    best = { point: candidate, distance: gap, s: starts[i]! + t * length };
  }
  const only = curve.vertices[0];
  if (best === undefined && only !== undefined) {
    best = { point: { x: only.x, y: only.y }, distance: distance(only, p), s: 0 };
  }
  if (best === undefined) throw new RangeError("a curve without vertices is nowhere near");
  return best;
}

/** Segments are looked at only where their boxes come near: this is far more than a box's own rounding, mm. */
const APART_MM: number = 2 * SAME_POINT_MM;

/** The box round each segment of a curve, as least x, least y, most x, most y, and how far along the curve it starts. */
const sizesOf = once((curve: Curve): { readonly boxes: Float64Array; readonly starts: Float64Array } => {
  const list = segments(curve);
  const boxes = new Float64Array(4 * list.length);
  const starts = new Float64Array(list.length);
  let before = 0;
  list.forEach((s, i) => {
    const { min, max } = boxOf(s);
    boxes.set([min.x, min.y, max.x, max.y], 4 * i);
    starts[i] = before;
    before += s.kind === "line" ? distance(s.from, s.to) : s.radius * Math.abs(s.sweep);
  });
  return { boxes, starts };
});

/** How far a point lies outside a box; 0 within. */
function beyond(boxes: Float64Array, i: number, { x, y }: Point): number {
  const dx = Math.max(boxes[4 * i]! - x, 0, x - boxes[4 * i + 2]!);
  const dy = Math.max(boxes[4 * i + 1]! - y, 0, y - boxes[4 * i + 3]!);
  return Math.sqrt(dx * dx + dy * dy);
}

export function nearestOn<F extends string>(s: Segment<F>, p: Point<NoInfer<F>>): Point<F> {
  return along(s, shareNearest(s, p));
}

/** How far along a segment its point nearest to `p` lies, as a share of it. */
export function shareNearest<F extends string>(s: Segment<F>, p: Point<NoInfer<F>>): number {
  if (s.kind === "line") {
    const [dx, dy] = [s.to.x - s.from.x, s.to.y - s.from.y];
    const t = ((p.x - s.from.x) * dx + (p.y - s.from.y) * dy) / (dx * dx + dy * dy);
    return Math.max(0, Math.min(1, t));
  }
  const share = angleAlong(s, p) / Math.abs(s.sweep);
  if (share <= 1) return share;
  return distance(p, s.from) <= distance(p, s.to) ? 0 : 1;
}

/** How far round its centre `p` lies from the arc's start, in the arc's own sense, 0 to 2π. */
function angleAlong<F extends string>(s: Segment<F> & { kind: "arc" }, p: Point<F>): number {
  const { centre, from, sweep } = s;
  const [ax, ay] = [from.x - centre.x, from.y - centre.y];
  const [bx, by] = [p.x - centre.x, p.y - centre.y];
  const turn = arctangent(ax * by - ay * bx, ax * bx + ay * by) * Math.sign(sweep);
  return turn < 0 ? turn + 2 * Math.PI : turn;
}

/**
 * How often a ray from `p` to the right crosses the segment. A piece that runs up or down counts where its
 * ends lie on different sides of the ray's line, so a vertex on the ray is counted by one neighbour only.
 */
function crossingsRightOf<F extends string>(s: Segment<F>, p: Point<F>): number {
  if (s.kind === "line") {
    if (s.from.y > p.y === s.to.y > p.y) return 0;
    return p.x < s.from.x + ((p.y - s.from.y) / (s.to.y - s.from.y)) * (s.to.x - s.from.x) ? 1 : 0;
  }
  const { centre, radius, sweep } = s;
  const start = arctangent(s.from.y - centre.y, s.from.x - centre.x);
  const sense = Math.sign(sweep);
  // The circle's top and bottom, at odd quarter turns, part the arc into rising and falling pieces.
  const half = (angle: number): number => Math.floor(angle / Math.PI + 0.5);
  const reach = Math.sqrt(Math.max(0, radius * radius - (p.y - centre.y) ** 2));
  let count = 0;
  let y = s.from.y;
  const last = half(start + sweep);
  for (let piece = half(start); ; piece += sense) {
    const isLast = piece === last;
    const top = (sense > 0 ? piece : piece - 1) % 2 === 0;
    const nextY = isLast ? s.to.y : centre.y + (top ? radius : -radius);
    if (y > p.y !== nextY > p.y) {
      const x = piece % 2 === 0 ? centre.x + reach : centre.x - reach;
      if (p.x < x) count++;
    }
    y = nextY;
    if (isLast) return count;
  }
}
