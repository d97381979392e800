import { meetings } from "./crossing.ts";
import type { Segment } from "./curve.ts";
import { boxesMeet, boxOf } from "./measure.ts";
import { distance, type Point } from "./point.ts";
import { partOf, segmentLength } from "./segment.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

/**
 * A closed run parted where it comes back to itself, so that each piece is simple: a neck of no width becomes
 * two pieces. The run itself where it passes every place once. Sides that cross by less than their chords
 * could tell are parted here, too.
 */
export function parted(run: readonly Segment[]): (readonly Segment[])[] {
  const touch = firstTouch(run);
  if (touch === undefined) return [run];
  const { i, k, at } = touch;
  return [passage(run, i, k, at), passage(run, k, i, at)].filter((piece) => piece.length > 0).flatMap(parted);
}

/** Where two sides, counted along the run, meet other than end to end. */
interface Touch {
  readonly i: number;
  readonly k: number;
  readonly at: Point;
}

/** Sides are taken from left to right, each against those that it may still reach. */
function firstTouch(run: readonly Segment[]): Touch | undefined {
  const boxes = run.map(boxOf);
  const order = run.map((_, i) => i).sort((i, k) => boxes[i]!.min.x - boxes[k]!.min.x);
  let open: number[] = [];
  for (const i of order) {
    const left = boxes[i]!.min.x - SAME_POINT_MM;
    open = open.filter((k) => boxes[k]!.max.x >= left);
    for (const k of open) {
      if (!boxesMeet(boxes[i]!, boxes[k]!)) continue;
      for (const at of meetings(run[i]!, run[k]!)) {
        if (!isCorner(run, i, k, at) && !isCorner(run, k, i, at)) return { i, k, at };
      }
    }
    open.push(i);
  }
  return undefined;
}

/** Whether side k follows side i at this point. */
function isCorner(run: readonly Segment[], i: number, k: number, at: Point): boolean {
  return (i + 1) % run.length === k && distance(run[k]!.from, at) <= SAME_POINT_MM;
}

/** From a point on side `i` along the run to the same point on side `k`. */
function passage(run: readonly Segment[], i: number, k: number, at: Point): Segment[] {
  const count = (k - i + run.length) % run.length;
  const between = Array.from({ length: count - 1 }, (_, n) => run[(i + 1 + n) % run.length]!);
  const [start, end] = [run[i]!, run[k]!];
  return [partOf(start, at, start.to), ...between, partOf(end, end.from, at)].filter(
    (s) => segmentLength(s) > SAME_POINT_MM,
  );
}
