import { type Curve, type Region, sweepFlat, unionFlat } from "@dryfit/geometry";

/**
 * What a round cutter covers along curves, as `sweepFlat` says it.
 *
 * Strokes that lie over each other by the hundred are joined in batches: what a batch covers has a plain outline, while
 * all strokes at once would cross each other again and again.
 */
export function swept<F extends string>(curves: readonly Curve<F>[], radius: number): Region<F>[] {
  const batches = batched(curves);
  const covered = batches.map((batch) => sweepFlat(batch, radius));
  return covered.length === 1 ? covered[0]! : unionFlat(covered.flat());
}

/** So many corners of curves are joined at once: more than usual programs have at one level of a part. */
const BATCH = 150;

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
