import type { Budget } from "./budget.ts";
import { freeSeat, hardestFirst, take } from "./construct.ts";
import { type Packing, packingOf, refresh, type Snapshot, snapshot } from "./packing.ts";
import type { Problem, Shape } from "./problem.ts";
import { type Rng, rngFrom } from "./rng.ts";
import { lengthUsed, shrink } from "./shrink.ts";

export interface StripResult {
  readonly length: number;
  readonly layout: Snapshot;
  readonly steps: number;
}

export interface StripSettings {
  readonly seed: number;
  readonly budget: Budget;
  readonly onProgress?: (result: StripResult) => void;
}

/** The shortest strip found for all items on sheet 0, whose right end is free. */
export function packStrip(problem: Problem, { seed, budget, onProgress }: StripSettings): StripResult {
  const rng = rngFrom(seed);
  const p = packingOf(problem);
  constructStrip(p, rng);
  let best = resultOf(p);
  onProgress?.(best);
  shrink(p, "x", budget, rng, () => {
    best = resultOf(p);
    onProgress?.(best);
  });
  return { ...best, steps: p.steps };
}

function resultOf(p: Packing): StripResult {
  return { length: lengthUsed(p, "x"), layout: snapshot(p), steps: p.steps };
}

/** Large items first, each as far left as sampling finds. */
function constructStrip(p: Packing, rng: Rng): void {
  const { problem, n } = p;
  // Items not yet laid stand on no sheet.
  p.bin.fill(-1);
  let end = problem.bins[0]!.x0;
  for (const i of hardestFirst(p)) {
    const longest = Math.max(...problem.shapesOf[problem.items[i]!]!.map((s) => widthOf(problem.shapes[s]!)));
    p.right[0] = end + longest;
    const seat = freeSeat(p, i, 0, 100, rng);
    // The strip's new end is always free.
    if (!seat) throw new RangeError(`item ${i} is wider than the strip`);
    take(p, i, seat);
    end = Math.max(end, seat.score);
  }
  p.right[0] = end;
  for (let i = 0; i < n; i++) refresh(p, i);
}

function widthOf(s: Shape): number {
  return s.x1 - s.x0;
}
