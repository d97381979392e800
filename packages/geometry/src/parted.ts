import type { Segment } from "./curve.ts";
import type { Point } from "./point.ts";
import { partOf, segmentLength } from "./segment.ts";
import { SAME_POINT_MM } from "./tolerance.ts";
import { touches } from "./touches.ts";

/**
 * A closed run parted where it comes back to itself, so that each piece is simple: a neck of no width becomes
 * two pieces. The run itself where it passes every place once. Sides that cross by less than their chords
 * could tell are parted here, too.
 */
export function parted(run: readonly Segment[]): (readonly Segment[])[] {
  const touch = touches(run).next().value;
  if (touch === undefined) return [run];
  const { i, k, at } = touch;
  return [passage(run, i, k, at), passage(run, k, i, at)].filter((piece) => piece.length > 0).flatMap(parted);
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
