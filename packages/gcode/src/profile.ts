import { directionAt, type Point } from "@dryfit/geometry";
import type { CuttingData } from "./cutter.ts";
import { approach, type Descent, leave, standsAfter, winding } from "./entry.ts";
import { follow, type Knot, startedAt, stretch, type Track, trackLength } from "./plan-track.ts";
import type { Move } from "./toolpath.ts";

/** Wood that a profile leaves standing: the cutter is lifted over it. */
export interface Lift {
  /** The lift's middle, the way along the track, mm. */
  readonly s: number;
  /** From where the cutter starts to rise to where it is down again, mm. */
  readonly length: number;
  /** How high it is lifted over the bottom of the cut, mm. */
  readonly height: number;
}

export interface ProfileCut {
  readonly descent: Descent;
  readonly safe: number;
  readonly data: CuttingData;
  readonly lifts: readonly Lift[];
  /** Where the cut starts, the way along the track, mm. */
  readonly start: number;
  /** Which side of the way ahead the waste lies on, and the radius of the arc that leads out into it; 0: straight up. */
  readonly waste: "left" | "right";
  readonly lead: number;
}

/**
 * The moves of a cut along a closed track, from safe height to safe height: wound down to the bottom,
 * over the lifts in every turn that would cut into them, and off the wall on an arc into the waste.
 */
export function profileMoves(track: Track, cut: ProfileCut): Move[] {
  const { descent, safe, data } = cut;
  const round = startedAt(track, cut.start);
  const length = trackLength(track);
  const level = winding(length, descent);
  const lifts = cut.lifts.map((lift) => ({ ...lift, s: wrapped(lift.s - cut.start, length) }));
  const cutting = follow(round, liftedOver(level, lifts, length, descent.bottom), data);
  const end = level.at(-1)!.s;
  const out = cut.lead > 0 ? [leadOut(round, end, cut)] : [];
  const from = { x: round[0]!.from.x, y: round[0]!.from.y, z: descent.top };
  const moves = [...cutting, ...out];
  return [...approach(from, safe, data), ...moves, leave(standsAfter(moves, from), safe)];
}

/** Slope of a lift's two ramps: half a right angle, so that the cutter never sinks faster than it runs. */
export const LIFT_SLOPE = 1;

/** The higher of the cut's own heights and the lifts', knot by knot and where the two meet. */
export function liftedOver(
  knots: readonly Knot[],
  lifts: readonly Lift[],
  round: number,
  bottom: number,
): Knot[] {
  if (lifts.length === 0) return [...knots];
  const end = knots.at(-1)!.s;
  const raised = (s: number): number =>
    Math.max(...lifts.map((lift) => heightOver(lift, cyclic(s - lift.s, round), bottom)));
  const ways = new Set(knots.map(({ s }) => s));
  for (let turn = 0; turn * round <= end; turn++)
    for (const { s, length, height } of lifts)
      for (const d of [
        -length / 2,
        height / LIFT_SLOPE - length / 2,
        length / 2 - height / LIFT_SLOPE,
        length / 2,
      ])
        if (s + d + turn * round > 0 && s + d + turn * round < end) ways.add(s + d + turn * round);
  const sorted = [...ways].sort((a, b) => a - b);
  const both = sorted.map((s) => ({ s, own: heightAt(knots, s), lift: raised(s) }));
  return both.flatMap((here, i) => {
    const knot = { s: here.s, z: Math.max(here.own, here.lift) };
    const next = both[i + 1];
    if (next === undefined) return [knot];
    const [d0, d1] = [here.lift - here.own, next.lift - next.own];
    if (Math.sign(d0) * Math.sign(d1) >= 0) return [knot];
    const t = d0 / (d0 - d1);
    return [knot, { s: here.s + (next.s - here.s) * t, z: here.own + (next.own - here.own) * t }];
  });
}

/** A trapezoid over the lift, and far below the bottom elsewhere with the same slope. */
function heightOver({ length, height }: Lift, away: number, bottom: number): number {
  return bottom + Math.min(height, (length / 2 - Math.abs(away)) * LIFT_SLOPE);
}

function heightAt(knots: readonly Knot[], s: number): number {
  const i = Math.max(
    1,
    knots.findIndex((knot) => knot.s >= s),
  );
  const [a, b] = [knots[i - 1]!, knots[i]!];
  return b.s === a.s ? b.z : a.z + ((b.z - a.z) * (s - a.s)) / (b.s - a.s);
}

/** A quarter turn off the wall, tangent to the track. */
function leadOut(round: Track, s: number, cut: ProfileCut): Move {
  const { centre, to } = leadFrom(round, s, cut);
  const sweep = ((cut.waste === "left" ? 1 : -1) * Math.PI) / 2;
  return { kind: "arc", to: { ...to, z: cut.descent.bottom }, centre, sweep, feed: cut.data.feedMmPerMin };
}

/** The lead's centre and its end, where it leaves the track the way `s` along it. */
export function leadFrom(
  track: Track,
  s: number,
  { waste, lead }: Pick<ProfileCut, "waste" | "lead">,
): { readonly centre: Point; readonly to: Point } {
  const length = trackLength(track);
  const at = wrapped(s, length) || length;
  const last = stretch(track, Math.max(0, at - 1), at).at(-1)!;
  const ahead = directionAt(last, 1);
  const side = waste === "left" ? lead : -lead;
  const centre = { x: last.to.x - ahead.y * side, y: last.to.y + ahead.x * side };
  return { centre, to: { x: centre.x + ahead.x * lead, y: centre.y + ahead.y * lead } };
}

const wrapped = (s: number, round: number): number => s - Math.floor(s / round) * round;

/** The shorter way round, signed. */
const cyclic = (s: number, round: number): number => wrapped(s + round / 2, round) - round / 2;
