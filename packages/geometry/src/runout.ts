import { difference } from "./boolean.ts";
import type { Loop, Region } from "./curve.ts";
import { offset } from "./offset.ts";

/**
 * A recess run out over the part's outline where it lies on it, so that a round cutter's corners fall
 * outside the part. Within the part nothing changes.
 */
export function runOut<F extends string>(
  recess: Region<F>,
  outline: Loop<NoInfer<F>>,
  by: number,
): Region<F>[] {
  const keep = difference<F>([{ outer: outline, holes: [] }], [recess]);
  return difference(offset([recess], by), keep);
}
