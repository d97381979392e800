import { combine, type Runs } from "./combine.ts";
import type { Curve, Region } from "./curve.ts";
import { displaced } from "./displaced.ts";
import { reversedSegment, segments } from "./segment.ts";
import { circle } from "./shapes.ts";

/** What a round cutter of this radius covers along the curves; a curve of no length is a plunge. */
export function sweep<F extends string>(curves: readonly Curve<F>[], radius: number): Region<F>[] {
  return combine("union", sweepRuns(curves, radius), [], "positive");
}

export function sweepRuns(curves: readonly Curve[], radius: number): Runs {
  return curves.flatMap((curve) => {
    const there = segments(curve);
    const back = there.map(reversedSegment).reverse();
    const [start] = curve.vertices;
    if (there.length === 0) return start === undefined ? [] : [segments(circle(start, radius))];
    if (curve.closed) return [displaced(there, radius), displaced(back, radius)];
    return [displaced([...there, ...back], radius)];
  });
}
