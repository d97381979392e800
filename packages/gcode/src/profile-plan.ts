import {
  distance,
  distanceTo,
  type Loop,
  nearest,
  type Point,
  pathOf,
  segmentLength,
} from "@dryfit/geometry";
import type { CuttingData } from "./cutter.ts";
import { type Descent, winding } from "./entry.ts";
import type { Bench } from "./plan-build.ts";
import { pointAlong, type Track, trackLength, turnedRound } from "./plan-track.ts";
import { type Lift, leadFrom, profileMoves } from "./profile.ts";
import { type Held, type Standing, tabsFor } from "./tabs.ts";
import type { Move } from "./toolpath.ts";

export interface Profiled {
  /** From safe height to safe height, started near where the cutter comes from. */
  readonly movesFrom: (near: Point) => readonly Move[];
  readonly tabs: readonly Standing[];
  /** Height of the skin left under the whole profile, mm; null: none. */
  readonly skin: number | null;
}

/**
 * A through cut along `held.track`, with what holds the piece: tabs, or a skin where the maker asks for it
 * or no tab finds room. `keepOff` are the outlines that the lead out must not touch.
 */
export function profile(
  held: Held,
  keepOff: readonly Loop[],
  radius: number,
  data: CuttingData,
  bench: Bench,
): Profiled {
  const { hold, direction, rampAngle } = bench.options;
  const below = bench.underside - bench.through;
  const tabs = hold.kind === "tabs" ? tabsFor(held, { ...hold, height: hold.height + below }, radius) : [];
  const skin = hold.kind === "skin" ? hold.height : tabs.length === 0 && held.area > 0 ? LAST_SKIN_MM : null;
  const bottom = skin === null ? bench.through : bench.underside + skin;
  const descent: Descent = { top: bench.top, bottom, most: data.depthPerPass, rampAngle };

  const climb = direction === "climb";
  const turned = (held.edge === "left") === climb;
  const track = turned ? turnedRound(held.track) : held.track;
  const round = trackLength(track);
  const lifts = tabs.map(({ lift }) => (turned ? { ...lift, s: round - lift.s } : lift));
  const run = winding(round, descent).at(-1)!.s;
  const waste = climb ? "left" : "right";
  const room = (from: number, lead: number): boolean => {
    const { to } = leadFrom(track, from, { waste, lead });
    return keepOff.every((loop) => distanceTo(loop, to) >= radius);
  };
  const movesFrom = (near: Point): Move[] => {
    const start = startOn(track, run, lifts, near);
    const leads = [bench.options.lead, bench.options.lead / 2];
    const lead = leads.find((one) => one > 0 && room(start + run, one)) ?? 0;
    return profileMoves(track, { descent, safe: bench.safe, data, lifts, start, waste, lead });
  };
  return { movesFrom, tabs, skin };
}

/** Height of the skin that holds a part whose outline has no room for tabs, mm. Common practice: 0.2 to 0.5. */
const LAST_SKIN_MM = 0.4;

/** Of the corners, middles and the nearest point: the nearest where the cut neither starts nor ends in a tab. */
function startOn(track: Track, run: number, lifts: readonly Lift[], near: Point): number {
  const round = trackLength(track);
  const ways = [nearest(pathOf(track), near).s];
  let s = 0;
  for (const segment of track) {
    ways.push(s, s + segmentLength(segment) / 2);
    s += segmentLength(segment);
  }
  const away = (way: number): number => distance(pointAlong(track, way), near);
  const inLift = (way: number): boolean =>
    lifts.some((lift) => {
      const d = Math.abs(way - lift.s) % round;
      return Math.min(d, round - d) <= lift.length / 2;
    });
  const free = ways.filter((way) => !inLift(way) && !inLift(way + run));
  return (free.length > 0 ? free : ways).reduce((best, way) => (away(way) < away(best) ? way : best));
}
