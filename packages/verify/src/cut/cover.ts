import { contains, type Region, type Segment, segments } from "@dryfit/geometry";
import { gapBetween } from "./gap.ts";
import { boxOfSegment, gridOf, grown } from "./grid.ts";

/** Regions that are asked again and again what lies within them. */
export interface Cover<F extends string> {
  /** Whether all that a round cutter of this radius covers along a segment lies within. */
  readonly holds: (s: Segment<F>, radius: number) => boolean;
}

export function coverOf<F extends string>(regions: readonly Region<F>[]): Cover<F> {
  const edges = regions.flatMap(({ outer, holes }) => [outer, ...holes].flatMap((loop) => segments(loop)));
  const grid = gridOf(edges, boxOfSegment, CELL_MM);
  // A segment that starts where one within ended, and comes near no edge, is within too.
  let within: Segment<F>["to"] | null = null;
  return {
    holds: (s, radius) => {
      const near = grid.near(grown(boxOfSegment(s), radius));
      const isClear = near.every((edge) => gapBetween(s, edge).distance >= radius);
      const { x, y } = s.from;
      const follows = within !== null && within.x === x && within.y === y;
      const holds = isClear && (follows || regions.some((region) => contains(region, { x, y }) === "inside"));
      within = holds ? s.to : null;
      return holds;
    },
  };
}

/** About a cutter's width, mm. */
const CELL_MM = 5;
