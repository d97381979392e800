import { meetings } from "./crossing.ts";
import type { Segment } from "./curve.ts";
import { boxesMeet, boxOf } from "./measure.ts";
import { distance, type Point } from "./point.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

/** A place where two sides of a closed run meet other than end to end; `i` < `k` count sides along it. */
export interface Touch<F extends string = string> {
  readonly i: number;
  readonly k: number;
  readonly at: Point<F>;
}

/** Every touch, one by one. Sides are taken from left to right, each against those that it may still reach. */
export function* touches<F extends string>(run: readonly Segment<F>[]): Generator<Touch<F>, undefined> {
  const boxes = run.map((s) => boxOf(s));
  const order = run.map((_, i) => i).sort((i, k) => boxes[i]!.min.x - boxes[k]!.min.x);
  let open: number[] = [];
  for (const here of order) {
    const left = boxes[here]!.min.x - SAME_POINT_MM;
    open = open.filter((there) => boxes[there]!.max.x >= left);
    for (const there of open) {
      if (!boxesMeet(boxes[here]!, boxes[there]!)) continue;
      const [i, k] = here < there ? [here, there] : [there, here];
      for (const at of meetings(run[i]!, run[k]!)) {
        if (!isCorner(run, i, k, at) && !isCorner(run, k, i, at)) yield { i, k, at };
      }
    }
    open.push(here);
  }
  return undefined;
}

/** Whether side k follows side i at this point, give or take that each end may be off by SAME_POINT_MM. */
function isCorner(run: readonly Segment[], i: number, k: number, at: Point): boolean {
  return (i + 1) % run.length === k && distance(run[k]!.from, at) <= 2 * SAME_POINT_MM;
}
