import type { Point, Segment } from "@dryfit/geometry";
import type { CuttingData } from "./cutter.ts";
import { approach, type Descent, leave, winding } from "./entry.ts";
import { follow, type Track, trackLength } from "./plan-track.ts";
import type { Move } from "./toolpath.ts";

/**
 * The moves of a round hole that needs no clearing: straight down where the cutter is as wide as the hole,
 * else wound down along its wall, once round level, and back to the middle before the cutter goes up.
 */
export function boreMoves(
  at: Point,
  { hole, cutter }: { readonly hole: number; readonly cutter: number },
  descent: Descent,
  safe: number,
  data: CuttingData,
): Move[] {
  if (hole - cutter < LEAST_HELIX * cutter) return plunged(at, descent, safe, data);
  const track = circleTrack(at, (hole - cutter) / 2);
  const middle = { x: at.x, y: at.y, z: descent.bottom };
  return [
    ...approach({ ...track[0]!.from, z: descent.top }, safe, data),
    ...follow(track, winding(trackLength(track), descent), data),
    { kind: "line", to: middle, feed: data.feedMmPerMin },
    leave(middle, safe),
  ];
}

/** How much wider than the cutter a hole must be to be wound down, in cutter diameters. From memory. */
export const LEAST_HELIX = 0.15;

/** Deeper than one pass it pecks: chips must leave a drill, and an end mill is not made to go straight down far. */
function plunged(at: Point, { top, bottom, most }: Descent, safe: number, data: CuttingData): Move[] {
  return [
    { kind: "rapid", to: { x: at.x, y: at.y, z: safe } },
    {
      kind: "drill",
      at: { x: at.x, y: at.y, z: bottom },
      from: top + DRILL_AIR_MM,
      peck: top - bottom > most ? most : null,
      dwellSeconds: 0,
      feed: data.plungeMmPerMin,
    },
    leave(at, safe),
  ];
}

/** Air over the wood from which a drill is fed, mm. Common practice. */
const DRILL_AIR_MM = 1;

/** Two half turns, counter-clockwise: climb cutting inside a hole. */
export function circleTrack(centre: Point, radius: number): Track {
  const [left, right] = [
    { x: centre.x - radius, y: centre.y },
    { x: centre.x + radius, y: centre.y },
  ];
  const half = (from: Point, to: Point): Segment => ({
    kind: "arc",
    from,
    to,
    centre,
    radius,
    sweep: Math.PI,
  });
  return [half(left, right), half(right, left)];
}
