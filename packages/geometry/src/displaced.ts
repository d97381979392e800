import type { Segment } from "./curve.ts";
import type { Point } from "./point.ts";
import { directionAt } from "./segment.ts";
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
  if (Math.abs(turn) < Math.PI - STRAIGHT_BACK)
    return [{ kind: "arc", from, to, centre, radius, sweep: turn }];
  // Half a turn in two quarters: round a cutter's furthest point the way round is never in doubt.
  const ahead = directionAt(before, 1);
  const middle = { x: centre.x + ahead.x * radius, y: centre.y + ahead.y * radius };
  return [
    { kind: "arc", from, to: middle, centre, radius, sweep: turn / 2 },
    { kind: "arc", from: middle, to, centre, radius, sweep: turn / 2 },
  ];
}

/** Nearer than this to a half turn, radians, the way a run turns is told by how its sides bend. */
const STRAIGHT_BACK = 1e-7;

function turnBetween(before: Segment, after: Segment): number {
  const [a, b] = [directionAt(before, 1), directionAt(after, 0)];
  const turn = Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
  if (Math.abs(turn) < Math.PI - STRAIGHT_BACK) return turn;
  // At a cusp the sides touch: bending right they part on the left, so it is a hollow; else a tip. A path
  // that turns back on itself ends in a tip, too.
  return bend(before) + bend(after) > 0 ? -Math.PI : Math.PI;
}

function bend(s: Segment): number {
  return s.kind === "line" ? 0 : Math.sign(s.sweep) / s.radius;
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
