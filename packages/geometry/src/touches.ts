import { boxTree } from "./box-tree.ts";
import { meetings } from "./crossing.ts";
import type { Segment } from "./curve.ts";
import { boxOf } from "./measure.ts";
import { distance, type Point } from "./point.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

/** A place where two sides of a closed run meet other than end to end; `i` < `k` count sides along it. */
export interface Touch<F extends string = string> {
  readonly i: number;
  readonly k: number;
  readonly at: Point<F>;
}

/** Every touch, one by one. */
export function* touches<F extends string>(run: readonly Segment<F>[]): Generator<Touch<F>, undefined> {
  const boxes = new Float64Array(4 * run.length);
  run.forEach((s, i) => {
    const { min, max } = boxOf(s);
    const gap = SAME_POINT_MM / 2;
    boxes.set([min.x - gap, min.y - gap, max.x + gap, max.y + gap], 4 * i);
  });
  const tree = boxTree(boxes);
  for (let i = 0; i < run.length; i++) {
    const near: number[] = [];
    const [x0, y0, x1, y1] = boxes.subarray(4 * i, 4 * i + 4);
    tree.visit(x0!, y0!, x1!, y1!, (k) => {
      if (k > i) near.push(k);
    });
    for (const k of near) {
      for (const at of meetings(run[i]!, run[k]!)) {
        if (!isCorner(run, i, k, at) && !isCorner(run, k, i, at)) yield { i, k, at };
      }
    }
  }
  return undefined;
}

/** Whether side k follows side i at this point, give or take that each end may be off by SAME_POINT_MM. */
function isCorner(run: readonly Segment[], i: number, k: number, at: Point): boolean {
  return (i + 1) % run.length === k && distance(run[k]!.from, at) <= 2 * SAME_POINT_MM;
}
