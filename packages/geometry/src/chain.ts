import type { Curve, Loop, Path, Segment } from "./curve.ts";
import { distance, type Point } from "./point.ts";
import { loopOf, pathOf, reversedSegment, segments } from "./segment.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

export interface Chains<F extends string = string> {
  readonly loops: readonly Loop<F>[];
  /** What does not close: each ends where nothing, or more than one thing, goes on. */
  readonly open: readonly Path<F>[];
  /** Places where more than two ends meet, so that nobody can say which belong together. */
  readonly forks: readonly Point<F>[];
}

/**
 * Loose lines and arcs, in any order and direction, chained into outlines. Ends within `reach` of each other
 * are one corner, put where the piece before it ends. Loops among the pieces stay as they are.
 */
export function chainLoose<F extends string>(
  pieces: readonly Curve<F>[],
  reach: number = SAME_POINT_MM,
): Chains<F> {
  const loops = pieces.filter((piece): piece is Loop<F> => piece.closed);
  const runs = pieces
    .filter((piece) => !piece.closed)
    .map((piece) => segments(piece))
    .filter((run) => run.length > 0);
  const ends = runs.flatMap((run) => [run[0]!.from, run.at(-1)!.to]);
  const near = neighbours(ends, reach);
  const partner = near.map(([only, ...more]) =>
    only !== undefined && more.length === 0 && near[only]!.length === 1 ? only : -1,
  );

  const open: Path<F>[] = [];
  const used = new Set<number>();
  const follow = (start: number): Segment<F>[] => {
    const chain: Segment<F>[] = [];
    for (let end = start; !used.has(end >> 1); ) {
      used.add(end >> 1);
      append(chain, runs[end >> 1]!, end % 2 === 0);
      end = partner[otherEnd(end)]!;
      if (end < 0) break;
    }
    return chain;
  };
  // First what has a beginning; the rest goes round.
  ends.forEach((_, end) => {
    if (partner[end]! < 0 && !used.has(end >> 1)) open.push(pathOf(follow(end)));
  });
  ends.forEach((_, end) => {
    if (!used.has(end >> 1)) loops.push(loopOf(follow(end)));
  });
  const forks = ends.filter((_, end) => near[end]!.length > 1 && near[end]!.every((other) => other > end));
  return { loops, open, forks };
}

/** Piece p starts at end 2p and stops at end 2p + 1. */
function otherEnd(end: number): number {
  return end ^ 1;
}

function append<F extends string>(chain: Segment<F>[], run: readonly Segment<F>[], ahead: boolean): void {
  const [first, ...rest] = ahead ? run : run.map((s) => reversedSegment(s)).reverse();
  chain.push({ ...first!, from: chain.at(-1)?.to ?? first!.from }, ...rest);
}

/** For each point the others within reach of it, in order; found among those not too far to the side. */
function neighbours(points: readonly Point[], reach: number): number[][] {
  const near: number[][] = points.map(() => []);
  const order = points.map((_, i) => i).sort((i, k) => points[i]!.x - points[k]!.x);
  order.forEach((i, place) => {
    for (let n = place + 1; n < order.length; n++) {
      const k = order[n]!;
      if (points[k]!.x - points[i]!.x > reach) break;
      if (distance(points[i]!, points[k]!) > reach) continue;
      near[i]!.push(k);
      near[k]!.push(i);
    }
  });
  return near;
}
