import type { Point, Region } from "@dryfit/geometry";
import { tracksOf } from "./clear.ts";
import { discGrid } from "./clear-disc-grid.ts";
import type { Disc } from "./clear-discs.ts";
import { follow } from "./clear-engage-follow.ts";
import { spiral } from "./clear-engage-spiral.ts";
import { alongWall } from "./clear-engage-walls.ts";
import type { Work } from "./clear-engage-work.ts";
import { skeletonOf } from "./clear-skeleton.ts";
import type { Direction } from "./plan-options.ts";
import type { Track } from "./plan-track.ts";

/** How a piece of a pocket is cleared without ever taking more of the cutter's rim than asked. */
export interface EngagedClearing {
  /** The circle down which the cutter winds itself, from its leftmost place. */
  readonly helix: Disc;
  readonly way: Direction;
  /** Ways at one level, in order; between two the cutter goes up. The last ones run along the walls. */
  readonly runs: readonly Track[];
  /** The widest engagement, radians. */
  readonly widest: number;
}

/**
 * Clears where the cutter's axis may be, `within`, in strokes that are arcs of discs: each disc lies within, and only
 * just far enough from those cleared before that the cutter's rim is never in wood by more than `limit`. First a helix,
 * then a spiral of half turns until the disc fills the roomiest place, then disc after disc along the middle lines,
 * to and fro, into every corner; last the walls. Null: so narrow that the cutter could hardly wind itself down.
 *
 * What is cleared is all of each disc, grown by the cutter's radius; so how much of the rim is in wood follows
 * from circles alone, exactly.
 */
export function engagedClearing(
  within: Region,
  radius: number,
  limit: number,
  way: Direction,
): EngagedClearing | null {
  const skeleton = skeletonOf(within, radius / 4);
  if (skeleton.root.radius < LEAST_ROOM * radius) return null;
  const work: Work = {
    within,
    radius,
    limit: MARGIN * limit,
    room: (at: Point) => offWall(skeleton.clearance(at)),
    discs: discGrid(2 * radius),
    from: [],
    runs: [],
    widest: 0,
    pen: null,
  };
  const { root, chains } = skeleton;
  const helix = { at: root.at, radius: Math.min(offWall(root.radius), HELIX * radius) };
  spiral(work, helix, way === "climb" ? 1 : -1);
  const grown = work.discs.all.at(-1)!;
  for (const [i, chain] of chains.entries()) {
    const discs = chain.map((disc) => ({ ...disc, radius: offWall(disc.radius) }));
    follow(work, i === 0 ? [grown, ...discs] : discs);
  }
  for (const wall of tracksOf(within, way)) alongWall(work, wall);
  return { helix, way, runs: work.runs, widest: work.widest };
}

/** The axis must have this much room, in cutter radii: else it takes a slot and no art. */
const LEAST_ROOM = 0.08;
/** Radius of the helix, in cutter radii: less than one, so that no core is left. */
const HELIX = 0.5;
/** Places between those looked at may be a little worse. */
const MARGIN = 0.975;

/**
 * The radius of a disc that stays a little off the walls that it would touch: by more than print rounds away, so that
 * the last pass covers all of it; into a sharp corner, by less.
 */
const offWall = (radius: number): number => radius - Math.min(OFF_WALL_MM, radius / 4);

const OFF_WALL_MM = 0.003;
