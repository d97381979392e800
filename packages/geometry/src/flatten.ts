import { arccosine } from "./arctangent.ts";
import type { Curve, Loop, Region } from "./curve.ts";
import type { Point } from "./point.ts";
import { along, segments } from "./segment.ts";
import { polygon } from "./shapes.ts";
import { FLATTENING_MM } from "./tolerance.ts";

/**
 * A curve as points on it whose chords stand off it by at most `tolerance`.
 * A loop's first point is not repeated.
 */
export function flatten<F extends string>(curve: Curve<F>, tolerance: number = FLATTENING_MM): Point<F>[] {
  const points: Point<F>[] = [];
  const list = segments(curve);
  for (const s of list) {
    points.push(s.from);
    if (s.kind === "line") continue;
    const steps = Math.ceil(Math.abs(s.sweep) / chordAngle(s.radius, tolerance));
    for (let i = 1; i < steps; i++) points.push(along(s, i / steps));
  }
  const last = list.at(-1);
  if (!curve.closed && last !== undefined) points.push(last.to);
  return points;
}

/** The region with chords for arcs. */
export function flattenRegion<F extends string>(
  region: Region<F>,
  tolerance: number = FLATTENING_MM,
): Region<F> {
  const flat = (loop: Loop<F>): Loop<F> => polygon(flatten(loop, tolerance));
  return { outer: flat(region.outer), holes: region.holes.map(flat) };
}

/** The widest angle at the centre whose chord stands off the circle by at most `tolerance`. */
export function chordAngle(radius: number, tolerance: number): number {
  // A coarse tolerance still leaves four sides to a circle.
  if (tolerance >= radius * (1 - Math.SQRT1_2)) return Math.PI / 2;
  return 2 * arccosine(1 - tolerance / radius);
}
