import { difference, union } from "./boolean.ts";
import { nearestOn, shareNearest } from "./contains.ts";
import { meetings } from "./crossing.ts";
import type { Loop, Path, Region, Segment } from "./curve.ts";
import { onceWith } from "./once.ts";
import { distance } from "./point.ts";
import { along, partOf, pathOf, segments } from "./segment.ts";
import { sweep } from "./sweep.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

/**
 * A recess run out by `by` over the part's outline where it lies on it, so that a round cutter's corners fall
 * outside the part. Within the part nothing changes, nor where the recess merely comes near the outline.
 */
export function runOut<F extends string>(
  recess: Region<F>,
  outline: Loop<NoInfer<F>>,
  by: number,
): Region<F>[] {
  // In the frame of the recess.
  return [...(grownOver(recess, outline, by) as readonly Region<F>[])];
}

/** Asked again by each that cuts, draws or weighs the recess. */
const grownOver = onceWith((recess: Region, outline: Loop, by: number): readonly Region[] => {
  const open = [recess.outer, ...recess.holes].flatMap((loop) => sharedWith(outline, loop));
  if (open.length === 0) return [recess];
  return union([recess, ...difference(sweep(open, by), [{ outer: outline, holes: [] }])]);
});

/** The stretches of `loop` that lie on `outline`. */
function sharedWith<F extends string>(outline: Loop<F>, loop: Loop<F>): Path<F>[] {
  const sides = segments(outline);
  return segments(loop).flatMap((s) => sides.flatMap((side) => sharedStretches(s, side)));
}

/** Two sides share a stretch where they meet at both its ends and in its middle. */
function sharedStretches<F extends string>(a: Segment<F>, b: Segment<F>): Path<F>[] {
  const ends = meetings(a, b)
    .map((p) => shareNearest(a, p))
    .sort((s, t) => s - t);
  return ends.slice(1).flatMap((to, i) => {
    const from = ends[i]!;
    const middle = along(a, (from + to) / 2);
    const shared = distance(nearestOn(b, middle), middle) <= SAME_POINT_MM;
    return shared ? [pathOf([partOf(a, along(a, from), along(a, to))])] : [];
  });
}
