import type { Curve } from "@dryfit/geometry";
import { arctangent, cosine, sine } from "@dryfit/geometry";

/** A line or arc with what the sums below need; `radius` 0 marks a line. mm, radians. */
export interface Edge {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly cx: number;
  readonly cy: number;
  readonly radius: number;
  /** Where a counter-clockwise walk along the arc starts, and how far it goes. */
  readonly start: number;
  readonly sweep: number;
}

/** The edges of a curve, arcs kept as arcs. */
export function edgesOf(curve: Curve): Edge[] {
  const n = curve.vertices.length;
  const last = curve.closed ? n : n - 1;
  return curve.vertices.slice(0, last).map((from, i) => {
    const to = curve.vertices[(i + 1) % n]!;
    const ends = { x0: from.x, y0: from.y, x1: to.x, y1: to.y };
    if (from.bulge === 0) return { ...ends, cx: 0, cy: 0, radius: 0, start: 0, sweep: 0 };
    const rise = (1 - from.bulge * from.bulge) / (4 * from.bulge);
    const cx = (from.x + to.x) / 2 - rise * (to.y - from.y);
    const cy = (from.y + to.y) / 2 + rise * (to.x - from.x);
    const first = from.bulge > 0 ? from : to;
    return {
      ...ends,
      cx,
      cy,
      radius: Math.hypot(from.x - cx, from.y - cy),
      start: arctangent(first.y - cy, first.x - cx),
      sweep: Math.abs(4 * arctangent(from.bulge, 1)),
    };
  });
}

/**
 * The least distance between two edges, mm; 0 where they meet. Exact for lines and arcs: the nearest pair is an end
 * of one of them, a crossing, or stands square to both.
 */
export function edgeDistance(a: Edge, b: Edge): number {
  if (edgesMeet(a, b)) return 0;
  let least = Math.min(
    pointDistance(a.x0, a.y0, b),
    pointDistance(a.x1, a.y1, b),
    pointDistance(b.x0, b.y0, a),
    pointDistance(b.x1, b.y1, a),
  );
  if (a.radius > 0) least = Math.min(least, squareDistance(a, b));
  else if (b.radius > 0) least = Math.min(least, squareDistance(b, a));
  return least;
}

/** Least x, least y, most x, most y of an edge. */
export function edgeBox(e: Edge): [number, number, number, number] {
  let [x0, y0, x1, y1] = [
    Math.min(e.x0, e.x1),
    Math.min(e.y0, e.y1),
    Math.max(e.x0, e.x1),
    Math.max(e.y0, e.y1),
  ];
  if (e.radius > 0) {
    if (within(e, 0)) x1 = e.cx + e.radius;
    if (within(e, Math.PI / 2)) y1 = e.cy + e.radius;
    if (within(e, Math.PI)) x0 = e.cx - e.radius;
    if (within(e, -Math.PI / 2)) y0 = e.cy - e.radius;
  }
  return [x0, y0, x1, y1];
}

function pointDistance(x: number, y: number, e: Edge): number {
  if (e.radius === 0) {
    const [dx, dy] = [e.x1 - e.x0, e.y1 - e.y0];
    const along = Math.max(0, Math.min(1, ((x - e.x0) * dx + (y - e.y0) * dy) / (dx * dx + dy * dy || 1)));
    return Math.hypot(x - e.x0 - along * dx, y - e.y0 - along * dy);
  }
  if (within(e, arctangent(y - e.cy, x - e.cx))) return Math.abs(Math.hypot(x - e.cx, y - e.cy) - e.radius);
  return Math.min(Math.hypot(x - e.x0, y - e.y0), Math.hypot(x - e.x1, y - e.y1));
}

/** The distance along the common normal of an arc and another edge; Infinity where it leaves either. */
function squareDistance(arc: Edge, other: Edge): number {
  let [fx, fy] = [other.cx, other.cy];
  if (other.radius === 0) {
    const [dx, dy] = [other.x1 - other.x0, other.y1 - other.y0];
    const along = ((arc.cx - other.x0) * dx + (arc.cy - other.y0) * dy) / (dx * dx + dy * dy || 1);
    if (along < 0 || along > 1) return Infinity;
    [fx, fy] = [other.x0 + along * dx, other.y0 + along * dy];
  }
  const towards = arctangent(fy - arc.cy, fx - arc.cx);
  let least = Infinity;
  for (const angle of [towards, towards + Math.PI]) {
    if (!within(arc, angle)) continue;
    const [x, y] = [arc.cx + arc.radius * cosine(angle), arc.cy + arc.radius * sine(angle)];
    least = Math.min(least, pointDistance(x, y, other));
  }
  return least;
}

function edgesMeet(a: Edge, b: Edge): boolean {
  if (a.radius === 0 && b.radius === 0) return linesCross(a, b);
  if (a.radius === 0) return lineMeetsArc(a, b);
  if (b.radius === 0) return lineMeetsArc(b, a);
  const gap = Math.hypot(b.cx - a.cx, b.cy - a.cy);
  if (gap === 0 || gap > a.radius + b.radius || gap < Math.abs(a.radius - b.radius)) return false;
  const along = (gap * gap + a.radius * a.radius - b.radius * b.radius) / (2 * gap);
  const half = Math.sqrt(Math.max(0, a.radius * a.radius - along * along));
  const [ux, uy] = [(b.cx - a.cx) / gap, (b.cy - a.cy) / gap];
  return [half, -half].some((side) => {
    const [x, y] = [a.cx + along * ux - side * uy, a.cy + along * uy + side * ux];
    return within(a, arctangent(y - a.cy, x - a.cx)) && within(b, arctangent(y - b.cy, x - b.cx));
  });
}

function linesCross(a: Edge, b: Edge): boolean {
  const side = (x: number, y: number, e: Edge): number =>
    (e.x1 - e.x0) * (y - e.y0) - (e.y1 - e.y0) * (x - e.x0);
  return side(a.x0, a.y0, b) * side(a.x1, a.y1, b) < 0 && side(b.x0, b.y0, a) * side(b.x1, b.y1, a) < 0;
}

function lineMeetsArc(line: Edge, arc: Edge): boolean {
  const [dx, dy] = [line.x1 - line.x0, line.y1 - line.y0];
  const [fx, fy] = [line.x0 - arc.cx, line.y0 - arc.cy];
  const a = dx * dx + dy * dy;
  const b = fx * dx + fy * dy;
  const root = b * b - a * (fx * fx + fy * fy - arc.radius * arc.radius);
  if (a === 0 || root < 0) return false;
  return [Math.sqrt(root), -Math.sqrt(root)].some((r) => {
    const t = (r - b) / a;
    return t >= 0 && t <= 1 && within(arc, arctangent(fy + t * dy, fx + t * dx));
  });
}

function within(arc: Edge, angle: number): boolean {
  const turn = 2 * Math.PI;
  const from = (((angle - arc.start) % turn) + turn) % turn;
  return from <= arc.sweep;
}
