import { clip, type Ring } from "./clipper.ts";
import type { Loop, Region } from "./curve.ts";
import { flatten } from "./flatten.ts";
import type { Point } from "./point.ts";
import { polygon } from "./shapes.ts";

/** Everything that is in any of the regions. */
export function union<F extends string>(regions: readonly Region<F>[]): Region<F>[] {
  return regionsFromRings(clip("union", ringsOf(regions), [], "nonzero"));
}

/** What is in `a` and not in `b`. */
export function difference<F extends string>(
  a: readonly Region<F>[],
  b: readonly Region<NoInfer<F>>[],
): Region<F>[] {
  return regionsFromRings(clip("difference", ringsOf(a), ringsOf(b), "nonzero"));
}

/** What is in both. */
export function intersection<F extends string>(
  a: readonly Region<F>[],
  b: readonly Region<NoInfer<F>>[],
): Region<F>[] {
  return regionsFromRings(clip("intersection", ringsOf(a), ringsOf(b), "nonzero"));
}

export function ringsOf(regions: readonly Region[]): Point[][] {
  return regions.flatMap(({ outer, holes }) => [outer, ...holes].map((one: Loop) => flatten(one)));
}

export function regionsFromRings<F extends string>(rings: readonly Ring[]): Region<F>[] {
  return rings.flatMap((outer): Region<F>[] => [
    { outer: loop<F>(outer), holes: outer.inside.map((hole) => loop<F>(hole)) },
    ...outer.inside.flatMap((hole) => regionsFromRings<F>(hole.inside)),
  ]);
}

/** The clipper forgets frames; the caller's types remember them. */
function loop<F extends string>(ring: Ring): Loop<F> {
  return polygon(ring.points as readonly Point<F>[]);
}
