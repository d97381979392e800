import { offset, type Region, sine } from "@dryfit/geometry";

/** The two round things whose difference a template allows for: what runs along it, and what cuts. Diameters, mm. */
export interface Pair {
  readonly guide: number;
  readonly cutter: number;
}

/**
 * How far the cut lies from the template's edge: half of what the bush (or bearing) is wider than the cutter.
 * Negative where a bearing is smaller than its cutter. Source: five how-to pages agree.
 */
export function guideOffset({ guide, cutter }: Pair): number {
  return (guide - cutter) / 2;
}

/**
 * The hole in a template inside which the router runs to cut `finished`.
 *
 * Errors of shape are the caller's: a corner tighter than the cutter, a slot narrower than it, and a wood corner
 * inside the outline (which the bush rounds by the offset) are seen by `routedInside`.
 */
export function insideTemplate<F extends string>(finished: readonly Region<F>[], pair: Pair): Region<F>[] {
  return offset(finished, guideOffset(pair));
}

/** The template round which the router runs to cut `finished` free. */
export function outsideTemplate<F extends string>(finished: readonly Region<F>[], pair: Pair): Region<F>[] {
  return offset(finished, -guideOffset(pair));
}

/** All that is cut with the bush anywhere inside the template's hole. */
export function routedInside<F extends string>(hole: readonly Region<F>[], pair: Pair): Region<F>[] {
  return offset(offset(hole, -pair.guide / 2), pair.cutter / 2);
}

/** All that is left standing with the bush anywhere outside the template. */
export function routedOutside<F extends string>(template: readonly Region<F>[], pair: Pair): Region<F>[] {
  return offset(offset(template, pair.guide / 2), -pair.cutter / 2);
}

/** The diameter that a round template hole gives: hole - bush + cutter. Source: how-to pages. */
export function finishedHole(hole: number, { guide, cutter }: Pair): number {
  return hole - guide + cutter;
}

/** The tightest inside corner of a template that the guide still follows, and what is cut there. mm. */
export function tightestCorner({ guide, cutter }: Pair): {
  readonly template: number;
  readonly finished: number;
} {
  return { template: guide / 2, finished: cutter / 2 };
}

/** The radius cut where a template's inside corner has this one: its own less the offset, never below the cutter's. */
export function finishedRadius(templateRadius: number, pair: Pair): number {
  return Math.max(templateRadius - guideOffset(pair), pair.cutter / 2);
}

/** How far a fence stands from a wall that is to be cut: from the base's edge to the cutter's. */
export function fenceOffset(baseEdgeToMiddle: number, cutterDiameter: number): number {
  return baseEdgeToMiddle - cutterDiameter / 2;
}

/** What a cutter of this radius leaves standing in a corner of `angle` radians, from the corner's point. Derived. */
export function leftInCorner(radius: number, angle: number = Math.PI / 2): number {
  return radius * (1 / sine(angle / 2) - 1);
}

/**
 * The hole that opens a square corner for a sharp one: its middle on the bisector, its edge on the corner's point.
 * `x`, `y`: from both walls; `overcut`: how far it reaches beyond each. Derived, for 90°.
 */
export function cornerRelief(radius: number): {
  readonly x: number;
  readonly y: number;
  readonly overcut: number;
} {
  const from = radius * Math.SQRT1_2;
  return { x: from, y: from, overcut: radius - from };
}

/** Contours for a beam that burns `kerf` away, so that what falls out and what stays have their drawn sizes. */
export function withKerf<F extends string>(wanted: readonly Region<F>[], kerf: number): Region<F>[] {
  return offset(wanted, kerf / 2);
}
