import { regionsFromRings } from "./boolean.ts";
import { clip } from "./clipper.ts";
import type { Curve, Region } from "./curve.ts";
import { flatten } from "./flatten.ts";
import { displaced } from "./offset.ts";
import type { Point } from "./point.ts";
import { reversedSegment, segments } from "./segment.ts";
import { circle } from "./shapes.ts";

/** What a round cutter of this radius covers along the curves; a curve of one vertex is a plunge. */
export function sweep<F extends string>(curves: readonly Curve<F>[], radius: number): Region<F>[] {
  const rings: Point[][] = [];
  for (const curve of curves) {
    const there = segments(curve);
    const back = there.map(reversedSegment).reverse();
    const only = curve.vertices[0];
    if (there.length === 0 && only !== undefined) rings.push(flatten(circle(only, radius)));
    else if (curve.closed) rings.push(displaced(there, radius), displaced(back, radius));
    else rings.push(displaced([...there, ...back], radius));
  }
  return regionsFromRings(clip("union", rings, [], "positive"));
}
