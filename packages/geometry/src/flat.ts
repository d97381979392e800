import { combineFlat, runsOf } from "./combine.ts";
import type { Curve, Region } from "./curve.ts";
import { offsetRuns } from "./offset.ts";
import { sweepRuns } from "./sweep.ts";

/**
 * The same operations with chords for arcs, each within FLATTENING_MM of the true curve, for work that only
 * asks where wood is and how much: measuring a cut, comparing two shapes.
 */
export function unionFlat<F extends string>(regions: readonly Region<F>[]): Region<F>[] {
  return combineFlat("union", runsOf(regions), [], "nonzero");
}

export function differenceFlat<F extends string>(
  a: readonly Region<F>[],
  b: readonly Region<NoInfer<F>>[],
): Region<F>[] {
  return combineFlat("difference", runsOf(a), runsOf(b), "nonzero");
}

export function intersectionFlat<F extends string>(
  a: readonly Region<F>[],
  b: readonly Region<NoInfer<F>>[],
): Region<F>[] {
  return combineFlat("intersection", runsOf(a), runsOf(b), "nonzero");
}

export function offsetFlat<F extends string>(regions: readonly Region<F>[], by: number): Region<F>[] {
  return by === 0 ? [...regions] : combineFlat("union", offsetRuns(regions, by), [], "positive");
}

export function sweepFlat<F extends string>(curves: readonly Curve<F>[], radius: number): Region<F>[] {
  return combineFlat("union", sweepRuns(curves, radius), [], "positive");
}
