import { arctangent } from "./arctangent.ts";
import type { Segment } from "./curve.ts";
import { cross, dot, type Point, subtract } from "./point.ts";
import { along, directionAt, segmentLength } from "./segment.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

/**
 * The closed run `by` to the right of a closed run, with round joins where its sides spread.
 *
 * Its winding is that of the run itself, plus one for every strip that a side sweeps on its way out, plus one
 * for every round join: so what it winds round at least once is the offset region, exactly; shrinking
 * subtracts in the same way. To keep that so, it goes back through the corner itself where sides come
 * together, and through its centre where an arc is tighter than the offset.
 */
export function displaced(run: readonly Segment[], by: number): Segment[] {
  const moved: Segment[] = [];
  run.forEach((s, i) => {
    moved.push(...join(run[(i + run.length - 1) % run.length]!, s, by), ...side(s, by));
  });
  return moved;
}

function side(s: Segment, by: number): Segment[] {
  if (s.kind === "line") return [{ kind: "line", from: beside(s, 0, by), to: beside(s, 1, by) }];
  const radius = s.radius + Math.sign(s.sweep) * by;
  if (Math.abs(radius) <= SAME_POINT_MM) return [];
  if (radius < 0) return lines(beside(s, 0, by), s.from, s.centre, s.to, beside(s, 1, by));
  return [{ ...s, from: beside(s, 0, by), to: beside(s, 1, by), radius }];
}

function join(before: Segment, after: Segment, by: number): Segment[] {
  const turn = turnBetween(before, after);
  const [from, to, centre] = [beside(before, 1, by), beside(after, 0, by), after.from];
  if (Math.abs(turn * by) <= SAME_POINT_MM) return [];
  if (turn > 0 !== by > 0) return lines(from, centre, to);
  const radius = Math.abs(by);
  if (Math.abs(turn) < Math.PI - FOLDED) return [{ kind: "arc", from, to, centre, radius, sweep: turn }];
  // Round a tip in two arcs that meet straight ahead, so that the way round is never in doubt.
  const ahead = directionAt(before, 1);
  const middle = { x: centre.x + ahead.x * radius, y: centre.y + ahead.y * radius };
  const quarter = (Math.sign(turn) * Math.PI) / 2;
  return [
    { kind: "arc", from, to: middle, centre, radius, sweep: quarter },
    { kind: "arc", from: middle, to, centre, radius, sweep: turn - quarter },
  ];
}

/** Sides that fold back to within this of each other, radians, are told apart further along. */
const FOLDED = 0.05;

/** A path run back upon itself misses itself by no more. */
const NOISE_MM: number = SAME_POINT_MM / 1000;

/** How far the run turns between two sides, left positive; a half turn and a little more at the end of a tip. */
function turnBetween(before: Segment, after: Segment): number {
  const [a, b] = [directionAt(before, 1), directionAt(after, 0)];
  const turn = arctangent(cross(a, b), dot(a, b));
  if (Math.abs(turn) < Math.PI - FOLDED) return turn;
  // Where sides touch at a cusp, rounding decides how they stand to each other in the corner itself. Further
  // along it is plain which lies on the left. A path that turns back on itself ends in a tip, too.
  const corner = after.from;
  const reach = Math.min(segmentLength(before), segmentLength(after)) / 2;
  const [from, to] = [
    along(before, 1 - reach / segmentLength(before)),
    along(after, reach / segmentLength(after)),
  ];
  const isTip = cross(subtract(corner, from), subtract(to, corner)) >= -reach * NOISE_MM;
  if (isTip) return turn < 0 ? turn + 2 * Math.PI : turn;
  return turn > 0 ? turn - 2 * Math.PI : turn;
}

/** The point `by` to the right of a segment's start or end. */
function beside(s: Segment, t: 0 | 1, by: number): Point {
  const p = t === 0 ? s.from : s.to;
  const d = directionAt(s, t);
  return { x: p.x + d.y * by, y: p.y - d.x * by };
}

function lines(...points: Point[]): Segment[] {
  return points.slice(1).map((to, i) => ({ kind: "line", from: points[i]!, to }));
}
