import {
  arccosine,
  contains,
  cosine,
  directionAt,
  distanceTo,
  loopOf,
  type Point,
  SAME_POINT_MM,
  signedArea,
  sine,
} from "@dryfit/geometry";
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

/** Off the wall: a quarter turn, tangent to the track. */
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
  const { at, ahead } = poseAt(track, s);
  const side = waste === "left" ? lead : -lead;
  const centre = { x: at.x - ahead.y * side, y: at.y + ahead.x * side };
  return { centre, to: { x: centre.x + ahead.x * lead, y: centre.y + ahead.y * lead } };
}

/** A last pass at full depth along a wall on which roughing has left `allowance`. */
export interface FinishCut extends Omit<ProfileCut, "lead"> {
  readonly allowance: number;
}

/**
 * The moves of a finishing pass: down through the air that roughing left, on a flat arc to the wall, all the way
 * round with some overlap, over the lifts, and off again on the same kind of arc. It starts where asked, or so much
 * further on that both arcs lie clear of the wall's other parts and of the lifts.
 */
export function finishMoves(track: Track, cut: FinishCut): Move[] {
  const { descent, safe, data, waste } = cut;
  const { start, arc } = clearEntry(track, cut);
  const round = startedAt(track, start);
  const length = trackLength(round);
  const z = descent.bottom;
  const overlap = overlapOn(length);
  const lifts = cut.lifts.map((lift) => ({ ...lift, s: wrapped(lift.s - start, length) }));
  const level = [
    { s: 0, z },
    { s: length + overlap, z },
  ];
  const [into, out] = [leadArc(round, 0, waste, arc, -1), leadArc(round, length + overlap, waste, arc, 1)];
  const feed = data.feedMmPerMin;
  const sweep = (waste === "left" ? 1 : -1) * arc.turn;
  return [
    ...approach({ ...into.away, z }, safe, data),
    { kind: "arc", to: { x: into.at.x, y: into.at.y, z }, centre: into.centre, sweep, feed },
    ...follow(round, liftedOver(level, lifts, length, z), data),
    { kind: "arc", to: { ...out.away, z }, centre: out.centre, sweep, feed },
    leave(out.away, safe),
  ];
}

/** How far a finishing pass runs on over its own start, mm. */
function overlapOn(length: number): number {
  return Math.min(OVERLAP_MM, length / 4);
}

/** An arc by which a finishing pass meets and leaves the wall. */
interface Lead {
  readonly radius: number;
  /** Radians. */
  readonly turn: number;
}

/**
 * The arcs that lead `allowance` off a wall, the flattest first. Along a straight wall the least turn does; in a
 * hole the wall bends after the arc, which must turn farther, or be tighter, to come away from it.
 */
function leadsFor(allowance: number): Lead[] {
  return LEAD_RADII_MM.filter((radius) => radius > allowance).flatMap((radius) => {
    const least = arccosine(1 - allowance / radius);
    return TURNS.map((times): Lead => ({ radius, turn: times * least })).filter(
      ({ turn }) => turn <= Math.PI / 2,
    );
  });
}

/** The arc by which a finishing pass meets the wall (`sense` −1) or leaves it (1) the way `s` along its track. */
function leadArc(
  track: Track,
  s: number,
  waste: FinishCut["waste"],
  { radius, turn }: Lead,
  sense: 1 | -1,
): { readonly centre: Point; readonly away: Point; readonly at: Point } {
  const side = waste === "left" ? 1 : -1;
  const { at, ahead } = poseAt(track, s);
  const centre = { x: at.x - ahead.y * side * radius, y: at.y + ahead.x * side * radius };
  const angle = sense * side * turn;
  const [dx, dy] = [at.x - centre.x, at.y - centre.y];
  const [cos, sin] = [cosine(angle), sine(angle)];
  return { centre, away: { x: centre.x + dx * cos - dy * sin, y: centre.y + dx * sin + dy * cos }, at };
}

/** The flattest arc, and the first place for it from the asked start on, that come in and go off through cleared room. */
function clearEntry(track: Track, cut: FinishCut): { readonly start: number; readonly arc: Lead } {
  const length = trackLength(track);
  const loop = loopOf(track);
  const inside = signedArea(loop) > 0 === (cut.waste === "left");
  const isFree = (p: Point): boolean =>
    (contains(loop, p) === "inside") === inside && distanceTo(loop, p) >= FREE_SHARE * cut.allowance;
  const inLift = (way: number): boolean =>
    cut.lifts.some((lift) => Math.abs(cyclic(way - lift.s, length)) <= lift.length / 2);
  const isClear = (start: number, arc: Lead): boolean => {
    const end = start + overlapOn(length);
    if (inLift(start) || inLift(end)) return false;
    const ends = [leadArc(track, start, cut.waste, arc, -1), leadArc(track, end, cut.waste, arc, 1)];
    return ends.every(({ away }) => isFree(away));
  };
  const steps = Math.ceil(length / TRY_MM);
  const arcs = leadsFor(cut.allowance);
  for (const arc of arcs)
    for (let i = 0; i < steps; i++) {
      const start = wrapped(cut.start + i * TRY_MM, length);
      if (isClear(start, arc)) return { start, arc };
    }
  // Nowhere is room: straight in and out, by next to no arc at all.
  return { start: cut.start, arc: { radius: cut.allowance, turn: Math.PI / 2 } };
}

/** How finely starts are tried along a wall, mm. */
const TRY_MM = 2;

/** Share of the allowance that must lie between an arc's far end and the wall's track. */
const FREE_SHARE = 0.9;

/** Radii of the arcs on which a finishing pass meets and leaves the wall, mm: flat, so that no mark is left. */
const LEAD_RADII_MM: readonly number[] = [12, 6, 3, 1.5];

/** By how many times the least turn an arc may turn away from a bent wall. */
const TURNS: readonly number[] = [1, 1.25, 1.5, 2, 2.5];

/** How far a finishing pass runs on over its own start, mm. */
const OVERLAP_MM = 5;

/** Where the track is the way `s` along it, and the way ahead there. */
function poseAt(track: Track, s: number): { readonly at: Point; readonly ahead: Point } {
  const length = trackLength(track);
  const round = wrapped(s, length);
  // At its start a track comes from its end; so near to it there is nothing to tell a direction by.
  const way = round > 2 * SAME_POINT_MM ? round : length;
  const last = stretch(track, Math.max(0, way - 1), way).at(-1)!;
  return { at: last.to, ahead: directionAt(last, 1) };
}

const wrapped = (s: number, round: number): number => s - Math.floor(s / round) * round;

/** The shorter way round, signed. */
const cyclic = (s: number, round: number): number => wrapped(s + round / 2, round) - round / 2;
