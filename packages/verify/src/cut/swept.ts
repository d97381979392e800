import {
  type Curve,
  pathOf,
  type Region,
  type Segment,
  segmentLength,
  segments,
  sweepFlat,
  unionFlat,
} from "@dryfit/geometry";
import { coverOf } from "./cover.ts";

/**
 * What a round cutter covers along curves, as `sweepFlat` says it.
 *
 * Strokes that lie over each other by the hundred are joined in batches: what a batch covers has a plain outline, while
 * all strokes at once would cross each other again and again. The longest come first: what they cover already, as a
 * wall's last pass covers the strokes that cleared the wood beside it, adds nothing and is left out.
 */
export function swept<F extends string>(curves: readonly Curve<F>[], radius: number): Region<F>[] {
  if (sizeOf(curves) <= BATCH) return sweepFlat(curves, radius);
  const { long, others } = parted(curves);
  const first = joined(long, radius);
  return joined(left(others, first, radius), radius, first);
}

/** So many corners of curves are joined at once: more than usual programs have at one level of a part. */
const BATCH = 150;

function sizeOf(curves: readonly Curve[]): number {
  return curves.reduce((sum, { vertices }) => sum + vertices.length, 0);
}

function joined<F extends string>(
  curves: readonly Curve<F>[],
  radius: number,
  before: readonly Region<F>[] = [],
): Region<F>[] {
  if (curves.length === 0) return [...before];
  const covered = batched(curves).map((batch) => sweepFlat(batch, radius));
  return covered.length === 1 && before.length === 0
    ? covered[0]!
    : unionFlat([...before, ...covered.flat()]);
}

/** The longest segments, as many as are joined at once, and the other ones; each in their order, still joined up. */
function parted<F extends string>(
  curves: readonly Curve<F>[],
): { readonly long: Curve<F>[]; readonly others: Curve<F>[] } {
  const runs = curves.map((curve) => segments(curve));
  const lengths = runs.flat().map(segmentLength);
  const least = [...lengths].sort((a, b) => b - a)[Math.floor(BATCH / 2)] ?? 0;
  const isLong = (s: Segment<F>): boolean => segmentLength(s) > least;
  const plunges = curves.filter((_, i) => runs[i]!.length === 0);
  return {
    long: runs.flatMap((run) => kept(run, isLong)),
    others: [...plunges, ...runs.flatMap((run) => kept(run, (s) => !isLong(s)))],
  };
}

/** Those of the curves, and of their segments, that reach out of what is covered. */
function left<F extends string>(
  curves: readonly Curve<F>[],
  covered: readonly Region<F>[],
  radius: number,
): Curve<F>[] {
  const cover = coverOf(covered);
  return curves.flatMap((curve) => {
    const run = segments(curve);
    return run.length === 0 ? [curve] : kept(run, (s) => !cover.holds(s, radius));
  });
}

/** The segments of a run that are asked for, in pieces that hang together. */
function kept<F extends string>(run: readonly Segment<F>[], keeps: (s: Segment<F>) => boolean): Curve<F>[] {
  const pieces: Segment<F>[][] = [];
  let open = false;
  for (const s of run) {
    const keep = keeps(s);
    if (keep && open) pieces.at(-1)!.push(s);
    else if (keep) pieces.push([s]);
    open = keep;
  }
  return pieces.map(pathOf);
}

function batched<F extends string>(curves: readonly Curve<F>[]): Curve<F>[][] {
  const batches: Curve<F>[][] = [[]];
  let size = 0;
  for (const curve of curves.flatMap(cutUp)) {
    const own = curve.vertices.length;
    if (size > 0 && size + own > BATCH) {
      batches.push([]);
      size = 0;
    }
    batches.at(-1)!.push(curve);
    size += own;
  }
  return batches;
}

/** A long path in stretches; each starts where the last ends. */
function cutUp<F extends string>(curve: Curve<F>): Curve<F>[] {
  const { vertices, closed } = curve;
  if (closed || vertices.length <= BATCH) return [curve];
  const stretches: Curve<F>[] = [];
  for (let from = 0; from < vertices.length - 1; from += BATCH - 1)
    stretches.push({ closed: false, vertices: vertices.slice(from, from + BATCH) });
  return stretches;
}
