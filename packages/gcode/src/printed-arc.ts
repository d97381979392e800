import { ARC_MISMATCH_MM, arctangent, PRINTED_ARC_MM } from "@dryfit/geometry";
import { type ArcMove, arcPoint, arcRadius, chordsOf } from "./arc.ts";
import { type Grid, rounded, roundedPosition, samePosition } from "./rounding.ts";
import type { Position } from "./toolpath.ts";

/** An arc as its block reads: centre from the start, all numbers on the grid. */
export interface PrintedArc {
  readonly kind: "arc";
  readonly to: Position;
  readonly i: number;
  readonly j: number;
  /** Of the printed arc, radians, signed. */
  readonly sweep: number;
}

/**
 * How `arc` is printed when the cutter stands at `start`, its own start rounded.
 *
 * The centre follows from the rounded start, then the arc is read back as a strict controller would: its ends must
 * be equally far from the centre and its middle where it was planned. If they are not, the centre's last digits
 * are nudged; if nothing helps, chords stand in for the arc.
 */
export function printedArc(arc: ArcMove, start: Position, grid: Grid): PrintedArc | readonly Position[] {
  // Smaller than what printing may shift: no digits left to bend it.
  if (arcRadius(arc) <= PRINTED_ARC_MM) return printedChords(arc, start, grid);
  const end = isFullCircle(arc) ? { ...start, z: rounded(arc.to.z, grid) } : roundedPosition(arc.to, grid);
  const [i, j] = [rounded(arc.centre.x - start.x, grid), rounded(arc.centre.y - start.y, grid)];
  const readBack = (di: number, dj: number): Candidate =>
    candidate(arc, start, end, rounded(i + di, grid), rounded(j + dj, grid));
  const plain = readBack(0, 0);
  if (plain.error <= 1) return plain.arc;
  const step = 10 ** -grid.decimals;
  const nudges = NUDGES.map(([di, dj]) => readBack(di * step, dj * step));
  const best = nudges.reduce((a, b) => (b.error < a.error ? b : a));
  return best.error <= 1 ? best.arc : printedChords(arc, start, grid);
}

/** Rounded ends of chords along the arc, none where the one before it stands. */
export function printedChords(arc: ArcMove, start: Position, grid: Grid): readonly Position[] {
  const points = chordsOf(arc).map((p) => roundedPosition(p, grid));
  return points.filter((p, k) => !samePosition(p, points[k - 1] ?? start));
}

export function isFullCircle({ sweep }: Pick<ArcMove, "sweep">): boolean {
  return Math.abs(sweep) > 2 * Math.PI - WHOLE_TURN_SLACK;
}

/** Two halves of a circle sum to a whole turn but for float noise, radians. */
const WHOLE_TURN_SLACK = 1e-9;

/** `error` is the worse of mismatch and distance at the middle, over what each may be. */
interface Candidate {
  readonly arc: PrintedArc;
  readonly error: number;
}

const NUDGES: readonly (readonly [number, number])[] = [-2, -1, 0, 1, 2].flatMap((di) =>
  [-2, -1, 0, 1, 2].map((dj) => [di, dj] as const),
);

/** A reader sums in another order than we do: it must not find the last bit too much. */
const FLOAT_MARGIN = 1 - 1e-6;

function candidate(planned: ArcMove, start: Position, end: Position, i: number, j: number): Candidate {
  const centre = { x: start.x + i, y: start.y + j };
  const startRadius = Math.hypot(i, j);
  const endRadius = Math.hypot(end.x - centre.x, end.y - centre.y);
  const sweep = sweepBetween(start, end, centre, planned.sweep);
  const printed: ArcMove = { from: start, to: end, centre, sweep };
  const [was, is] = [arcPoint(planned, 0.5), arcPoint(printed, 0.5)];
  // Ends that rounding has brought together would read as a whole turn.
  const collapsed = !isFullCircle(planned) && start.x === end.x && start.y === end.y;
  const error =
    startRadius === 0 || endRadius === 0 || collapsed
      ? Number.POSITIVE_INFINITY
      : Math.max(
          Math.abs(startRadius - endRadius) / (ARC_MISMATCH_MM * FLOAT_MARGIN),
          Math.hypot(was.x - is.x, was.y - is.y) / PRINTED_ARC_MM,
        );
  return { arc: { kind: "arc", to: end, i, j, sweep }, error };
}

/** The turn from start to end about the centre in the sense of `like`; equal ends are a whole turn, as in a block. */
function sweepBetween(
  start: Position,
  end: Position,
  centre: { x: number; y: number },
  like: number,
): number {
  const [ax, ay] = [start.x - centre.x, start.y - centre.y];
  const [bx, by] = [end.x - centre.x, end.y - centre.y];
  const turn = arctangent(ax * by - ay * bx, ax * bx + ay * by);
  const whole = 2 * Math.PI;
  if (start.x === end.x && start.y === end.y) return Math.sign(like) * whole;
  return like > 0 ? (turn <= 0 ? turn + whole : turn) : turn >= 0 ? turn - whole : turn;
}
