import {
  along,
  type Loop,
  lengthOf,
  nearest,
  type Path,
  type Point,
  pathOf,
  SAME_POINT_MM,
  type Segment,
  segmentLength,
  segments,
} from "@dryfit/geometry";

/**
 * The stretch of a loop from the place nearest `from` on to the place nearest `to`, the way the loop runs.
 * Arcs stay arcs.
 */
export function runBetween<F extends string>(
  loop: Loop<F>,
  from: Point<NoInfer<F>>,
  to: Point<NoInfer<F>>,
): Path<F> {
  const total = lengthOf(loop);
  const start = nearest(loop, from).s;
  const end = nearest(loop, to).s;
  const length = end > start + SAME_POINT_MM ? end - start : end - start + total;
  const list = segments(loop);
  const found: Segment<F>[] = [];
  // Twice round, so that a run over the loop's first vertex is one run.
  let before = 0;
  for (const s of [...list, ...list]) {
    const own = segmentLength(s);
    const [a, b] = [Math.max(start, before), Math.min(start + length, before + own)];
    if (b - a > SAME_POINT_MM) found.push(cut(s, (a - before) / own, (b - before) / own));
    before += own;
  }
  return pathOf(found);
}

function cut<F extends string>(s: Segment<F>, a: number, b: number): Segment<F> {
  const ends = { from: along(s, a), to: along(s, b) };
  return s.kind === "line" ? { ...s, ...ends } : { ...s, ...ends, sweep: s.sweep * (b - a) };
}
