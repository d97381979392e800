import {
  cosine,
  distance,
  distanceTo,
  type Loop,
  nearest,
  type Point,
  pathOf,
  segmentLength,
  sine,
} from "@dryfit/geometry";
import type { CuttingData } from "./cutter.ts";
import { type Descent, standsAfter, winding } from "./entry.ts";
import type { Bench } from "./plan-build.ts";
import type { Direction, PlanOptions } from "./plan-options.ts";
import { pointAlong, type Track, trackLength, turnedRound } from "./plan-track.ts";
import { finishMoves, type Lift, leadFrom, profileMoves } from "./profile.ts";
import { type Held, type Standing, tabsFor } from "./tabs.ts";
import type { Move } from "./toolpath.ts";

export interface Profiled {
  /** From safe height to safe height, started near where the cutter comes from. */
  readonly movesFrom: (near: Point) => readonly Move[];
  readonly tabs: readonly Standing[];
  /** Height of the skin left under the whole profile, mm; null: none. */
  readonly skin: number | null;
}

/** What a through cut follows, and with what. */
export interface ProfileWork {
  /** The finished wall's track, and what is to be held. */
  readonly held: Held;
  /** The track on which roughing leaves the finishing allowance; null: there is no finishing pass. */
  readonly rough: Track | null;
  /** Outlines that a lead must not touch. */
  readonly keepOff: readonly Loop[];
  readonly radius: number;
  readonly slot: CuttingData;
  readonly finishing: CuttingData;
  /** True: everything is down to a skin already, and this cuts the skin. */
  readonly lastPass: boolean;
}

/**
 * A through cut with what holds the piece: tabs, or a skin where the maker asks for it or no tab finds room.
 */
export function profile(work: ProfileWork, bench: Bench): Profiled {
  const { held, radius, slot } = work;
  const { hold, direction, rampAngle, score, finish } = bench.options;
  const below = bench.underside - bench.through;
  const tabs = hold.kind === "tabs" ? tabsFor(held, { ...hold, height: hold.height + below }, radius) : [];
  const skin = work.lastPass ? null : skinUnder(held, tabs, bench.options);
  const bottom = skin === null ? bench.through : bench.underside + skin;
  const top = work.lastPass && hold.kind === "skin" ? bench.underside + hold.height : bench.top;
  const descent: Descent = {
    top,
    bottom,
    most: slot.depthPerPass,
    rampAngle,
    score: work.lastPass ? 0 : score,
  };

  const wall = oriented(held.track, held.edge, direction);
  const round = trackLength(wall);
  const turned = wall !== held.track;
  const lifts = tabs.map(({ lift }) => (turned ? { ...lift, s: round - lift.s } : lift));
  const wasteOf = (way: Direction): "left" | "right" => (way === "climb" ? "left" : "right");
  const common = { descent, safe: bench.safe };
  const room = (track: Track, s: number, waste: "left" | "right", lead: number): boolean => {
    const { centre, to } = leadFrom(track, s, { waste, lead });
    const loops = [...work.keepOff, ...bench.outlines.map(({ loop }) => loop)];
    // A quarter turn may bulge into a concave wall on its way to where there is room again.
    const [x, y] = [to.x - centre.x, to.y - centre.y];
    const way = LEAD_LOOKS.map((back) => {
      const [cos, sin] = [cosine(back), sine(back) * (waste === "left" ? -1 : 1)];
      return { x: centre.x + x * cos - y * sin, y: centre.y + x * sin + y * cos };
    });
    return loops.every((loop) => way.every((p) => distanceTo(loop, p) >= radius - OFF_MM));
  };
  /** Roughing, or all of it where no finishing pass follows. */
  const woundFrom = (track: Track, over: readonly Lift[], way: Direction, near: Point): Move[] => {
    const run = winding(trackLength(track), descent).at(-1)!.s;
    const start = startOn(track, run, over, near);
    const waste = wasteOf(way);
    const leads = [bench.options.lead, bench.options.lead / 2];
    const lead = leads.find((one) => one > 0 && room(track, start + run, waste, one)) ?? 0;
    return profileMoves(track, { ...common, data: slot, lifts: over, start, waste, lead });
  };
  const movesFrom = (near: Point): Move[] => {
    if (work.rough === null || finish === null) return woundFrom(wall, lifts, direction, near);
    const rough = oriented(work.rough, held.edge, finish.roughing);
    const over = lifts.map((lift) => ({
      ...lift,
      s: nearest(pathOf(rough), pointAlong(wall, lift.s)).s,
    }));
    const roughing = woundFrom(rough, over, finish.roughing, near);
    const at = standsAfter(roughing, { x: near.x, y: near.y, z: bench.safe });
    const start = startOn(wall, FINISH_REACH_MM, lifts, at);
    const { allowance } = finish;
    const waste = wasteOf(direction);
    return [
      ...roughing,
      ...finishMoves(wall, { ...common, data: work.finishing, lifts, start, waste, allowance }),
    ];
  };
  const isLeft = hold.kind === "tabs" || !hold.finalPass;
  return { movesFrom, tabs, skin: isLeft ? skin : null };
}

/** The track with wood on the right for climb cutting, on the left else; the piece's edge is on that side. */
function oriented(track: Track, edge: "left" | "right", direction: Direction): Track {
  return (edge === "left") === (direction === "climb") ? turnedRound(track) : track;
}

function skinUnder(held: Held, tabs: readonly Standing[], { hold }: PlanOptions): number | null {
  if (hold.kind === "skin") return held.area > 0 ? hold.height : null;
  return tabs.length === 0 && held.area > 0 ? LAST_SKIN_MM : null;
}

/** Where a lead's quarter turn is looked at: from its end back to near its start, which lies on the wall, radians. */
const LEAD_LOOKS: readonly number[] = Array.from({ length: 9 }, (_, i) => (i * Math.PI) / 18);

/** Close to its start a lead is as far off the wall as the track itself, but for rounding, mm. */
const OFF_MM = 0.001;

/** How far a finishing pass runs on beyond its start, leads and all, mm. */
const FINISH_REACH_MM = 10;

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
