import { regionsFromRings } from "./boolean.ts";
import { clip } from "./clipper.ts";
import type { Loop, Region, Segment } from "./curve.ts";
import { chordAngle } from "./flatten.ts";
import type { Point } from "./point.ts";
import { directionAt, segments, turnedAbout } from "./segment.ts";
import { FLATTENING_MM, SAME_POINT_MM } from "./tolerance.ts";

/** The regions grown by `by` (shrunk where negative), corners rounded with that radius where they spread. */
export function offset<F extends string>(regions: readonly Region<F>[], by: number): Region<F>[] {
  if (by === 0) return [...regions];
  const rings = regions.flatMap(({ outer, holes }) =>
    [outer, ...holes].map((loop: Loop) => displaced(segments(loop), by)),
  );
  return regionsFromRings(clip("union", rings, [], "positive"));
}

/**
 * The ring `by` to the right of a closed run of segments. Added to the winding of the run itself, it
 * winds once more round every strip, and every round join, that the offset adds or takes away: so what is
 * wound at least once is the offset region, exactly. Where the sides come together instead of spreading,
 * the ring goes back through the corner itself.
 */
export function displaced(run: readonly Segment[], by: number): Point[] {
  const ring: Point[] = [];
  run.forEach((s, i) => {
    const before = run[(i + run.length - 1) % run.length]!;
    join(ring, before, s, by);
    side(ring, s, by);
  });
  return ring;
}

function side(ring: Point[], s: Segment, by: number): void {
  if (s.kind === "line") {
    ring.push(beside(s, 0, by), beside(s, 1, by));
    return;
  }
  const radius = s.radius + Math.sign(s.sweep) * by;
  if (Math.abs(radius) <= SAME_POINT_MM) ring.push(s.centre);
  else if (radius < 0) ring.push(s.from, s.centre, s.to);
  else arc(ring, s.centre, beside(s, 0, by), s.sweep, radius);
}

function join(ring: Point[], before: Segment, after: Segment, by: number): void {
  const turn = turnBetween(before, after);
  if (Math.abs(turn * by) <= SAME_POINT_MM) return;
  if (turn > 0 === by > 0) arc(ring, after.from, beside(before, 1, by), turn, Math.abs(by));
  else ring.push(beside(before, 1, by), after.from, beside(after, 0, by));
}

function arc(ring: Point[], centre: Point, from: Point, sweep: number, radius: number): void {
  const steps = Math.ceil(Math.abs(sweep) / chordAngle(radius, FLATTENING_MM));
  for (let i = 0; i <= steps; i++) ring.push(turnedAbout(centre, from, (sweep * i) / steps));
}

function turnBetween(before: Segment, after: Segment): number {
  const [a, b] = [directionAt(before, 1), directionAt(after, 0)];
  const turn = Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
  // Straight back is the outside turn round a path's end.
  return Math.abs(turn) > Math.PI - 1e-9 ? Math.PI : turn;
}

/** The point `by` to the right of a segment's start or end. */
function beside(s: Segment, t: 0 | 1, by: number): Point {
  const p = t === 0 ? s.from : s.to;
  const d = directionAt(s, t);
  return { x: p.x + d.y * by, y: p.y - d.x * by };
}
