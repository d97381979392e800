import {
  CUT_MM,
  difference,
  distance,
  loopOf,
  nearest,
  offset,
  type Point,
  type Region,
  segments,
} from "@dryfit/geometry";
import { startedAt, stretch, type Track, trackLength } from "./plan-track.ts";

/** How far a wall may be from the cutter's edge where a slot is cut in one line, mm: within the proof's limit. */
export const SLOT_MM: number = 0.4 * CUT_MM;

/**
 * The centre lines of what is exactly as wide as the cutter, within tolerance: slots by themselves, and arms of wider
 * pieces. None where `slot` is wider or narrower.
 */
export function slotLines(slot: readonly Region[], radius: number): Track[] {
  return offset([...slot], -(radius - SLOT_MM)).flatMap((room) => {
    const wide = offset(offset([room], -2 * SLOT_MM), 2 * SLOT_MM);
    const thin = wide.length === 0 ? [room] : difference([room], wide).filter(isArm(radius));
    return thin.filter(({ holes }) => holes.length === 0).flatMap(middleOf);
  });
}

/** Long enough that passes at both its ends leave more between them than tolerance; else it is the round of a corner. */
function isArm(radius: number): (thin: Region) => boolean {
  const least = 2 * Math.sqrt(2 * radius * SLOT_MM);
  return ({ outer }) => trackLength(segments(outer)) / 2 > least;
}

/** The middle of a sliver two SLOT_MM wide: a line between its ends, or one of its sides where it is bent. */
function middleOf({ outer }: Region): Track[] {
  const round = segments(outer);
  const [start, end] = farthestApart(outer.vertices);
  const length = distance(start, end);
  const half = trackLength(round) / 2;
  if (half < 4 * SLOT_MM) return [];
  if (length > half - 4 * SLOT_MM) {
    const cut = SLOT_MM / length;
    const along = (t: number): Point => ({
      x: start.x + (end.x - start.x) * t,
      y: start.y + (end.y - start.y) * t,
    });
    return [[{ kind: "line", from: along(cut), to: along(1 - cut) }]];
  }
  const side = startedAt(round, nearest(outer, start).s);
  return [stretch(side, SLOT_MM, nearest(loopOf(side), end).s - SLOT_MM)];
}

function farthestApart(points: readonly Point[]): [Point, Point] {
  let best: [Point, Point] = [points[0]!, points[0]!];
  for (const a of points)
    for (const b of points) if (distance(a, b) > distance(...best) + SLOT_MM / 100) best = [a, b];
  return best;
}
