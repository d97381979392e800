import { arctangent } from "./arctangent.ts";
import type { Arc } from "./curve.ts";
import { distance, type Point } from "./point.ts";
import { tangentOf } from "./sine.ts";
import { SAME_ANGLE } from "./tolerance.ts";

/**
 * The bulge of an arc.
 *
 * Shape: one number per segment, stored on its first vertex; positive turns left, 0 is straight.
 * Units: `sweep` in radians, from −π to π; a bulge has none.
 * Errors: RangeError beyond half a turn; split the arc first.
 * Source: DXF Reference, LWPOLYLINE, group code 42: tan(sweep / 4).
 */
export function bulgeFromSweep(sweep: number): number {
  if (!(Math.abs(sweep) <= Math.PI + SAME_ANGLE)) {
    throw new RangeError(`an arc of ${sweep} rad turns more than half round; split it first`);
  }
  // Half a turn is exactly 1, whatever tan makes of π / 4.
  if (Math.abs(sweep) >= Math.PI) return Math.sign(sweep);
  return tangentOf(sweep / 4);
}

export function sweepFromBulge(bulge: number): number {
  return 4 * arctangent(bulge, 1);
}

/** The arc of this bulge between two different points. Errors: RangeError where the bulge is 0. */
export function arcFromBulge<F extends string>(from: Point<F>, to: Point<NoInfer<F>>, bulge: number): Arc<F> {
  if (bulge === 0) throw new RangeError("a bulge of 0 is a line");
  // From the middle of the chord to the centre, along the chord's left normal.
  const rise = (1 - bulge * bulge) / (4 * bulge);
  const centre: Point<F> = {
    x: (from.x + to.x) / 2 - rise * (to.y - from.y),
    y: (from.y + to.y) / 2 + rise * (to.x - from.x),
  };
  const radius = (distance(from, to) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  return { kind: "arc", from, to, centre, radius, sweep: sweepFromBulge(bulge) };
}
