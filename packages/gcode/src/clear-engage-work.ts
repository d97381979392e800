import type { Point, Region } from "@dryfit/geometry";
import type { DiscGrid } from "./clear-disc-grid.ts";
import { type Disc, THIN_MM } from "./clear-discs.ts";
import type { Track } from "./plan-track.ts";

/** A clearing in the making. */
export interface Work {
  readonly within: Region;
  readonly radius: number;
  readonly limit: number;
  /** The radius of the largest disc about a place. */
  readonly room: (at: Point) => number;
  /** Cleared, in order, and for each the disc that it grew from. */
  readonly discs: DiscGrid;
  readonly from: number[];
  readonly runs: Track[number][][];
  widest: number;
  pen: Point | null;
}

/** The discs that may have cleared what a cutter with its axis no farther than `reach` from a place could meet. */
export function discsAbout({ discs, radius }: Work, at: Point, reach: number): readonly Disc[] {
  return discs.near(at, reach + 2 * radius + THIN_MM);
}

/** Takes down a disc as cleared, and gives its number. */
export function clear(work: Work, disc: Disc, from: number): number {
  work.discs.add(disc);
  work.from.push(from);
  return work.from.length - 1;
}

export function push(work: Work, track: Track): void {
  const last = work.runs.at(-1);
  if (work.pen !== null && last !== undefined) last.push(...track);
  else work.runs.push([...track]);
  work.pen = track.at(-1)!.to;
}
