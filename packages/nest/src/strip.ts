import type { Budget } from "./budget.ts";
import { freeSeat, hardestFirst, take } from "./construct.ts";
import {
  type Packing,
  packingOf,
  refresh,
  restore,
  type Snapshot,
  snapshot,
  totalOverlap,
} from "./packing.ts";
import type { Problem, Shape } from "./problem.ts";
import { roomFor } from "./reseat.ts";
import { normal, type Rng, rngFrom } from "./rng.ts";
import { separate } from "./separate.ts";
import { swapLarge } from "./shake.ts";

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

const EXPLORE = { patience: 50, strikes: 2, effort: { anywhere: 40, nearby: 25, refined: 3 } };
const COMPRESS = { patience: 60, strikes: 2, effort: { anywhere: 15, nearby: 30, refined: 2 } };

/** How much of its length the strip loses at a time. */
const COARSE = 0.01;
const FINE = 0.002;

/** The share of the budget for exploring; the rest compresses. */
const EXPLORING = 0.75;

/** The shortest strip found for all items on bin 0, whose `x1` is free. */
export function packStrip(problem: Problem, { seed, budget, onProgress }: StripSettings): StripResult {
  const rng = rngFrom(seed);
  const p = packingOf(problem);
  constructStrip(p, rng);
  let best = resultOf(p);
  onProgress?.(best);
  const stopAt = (share: number) => (): boolean => budget.spent(p.steps) >= share;
  const found = (): void => {
    best = resultOf(p);
    onProgress?.(best);
  };
  explore(p, rng, stopAt(EXPLORING), found);
  restore(p, best.layout);
  compress(p, rng, budget, found);
  return { ...best, steps: p.steps };
}

/**
 * Shrinks the strip and separates. Coarse steps until the first failure, then fine ones; a failure goes back to one
 * of the infeasible layouts met at this length, the less overlap the likelier, and shakes it.
 */
function explore(p: Packing, rng: Rng, stop: () => boolean, found: () => void): void {
  let best = snapshot(p);
  let pool: { overlap: number; layout: Snapshot }[] = [];
  let shrink = COARSE;
  setLength(p, lengthOf(p) * (1 - shrink));
  while (!stop()) {
    if (separate(p, EXPLORE, rng, stop)) {
      found();
      best = snapshot(p);
      pool = [];
      setLength(p, lengthOf(p) * (1 - shrink));
    } else if (shrink > FINE) {
      shrink = FINE;
      restore(p, best);
      setLength(p, lengthOf(p) * (1 - shrink));
    } else {
      pool.push({ overlap: totalOverlap(p), layout: snapshot(p) });
      pool.sort((a, b) => a.overlap - b.overlap);
      const pick = Math.min(pool.length - 1, Math.floor(pool.length * 0.25 * Math.abs(normal(rng))));
      restore(p, pool[pick]!.layout);
      swapLarge(p, rng);
    }
  }
}

/** Small cuts at random places, each kept if it can be separated. */
function compress(p: Packing, rng: Rng, budget: Budget, found: () => void): void {
  const from = budget.spent(p.steps);
  const stop = (): boolean => budget.spent(p.steps) >= 1;
  let best = snapshot(p);
  while (!stop()) {
    const through = Math.min(1, (budget.spent(p.steps) - from) / Math.max(1e-9, 1 - from));
    const shrink = 0.002 * (1 - through) ** 2 + 0.00002;
    const length = lengthOf(p);
    const cut = rng() * length;
    const less = length * shrink;
    for (let i = 0; i < p.n; i++) {
      const s = p.problem.shapes[p.shape[i]!]!;
      if (p.x[i]! + (s.x0 + s.x1) / 2 > cut) p.x[i]! -= less;
    }
    setLength(p, length - less);
    if (separate(p, COMPRESS, rng, stop)) {
      found();
      best = snapshot(p);
    } else restore(p, best);
  }
}

/** The strip's end moves; items that would stick out are pushed back. */
function setLength(p: Packing, length: number): void {
  const bin = p.problem.bins[0]!;
  p.right[0] = bin.x0 + length;
  for (let i = 0; i < p.n; i++) {
    const [x0, y0, x1, y1] = roomFor(p, p.shape[i]!, 0);
    p.x[i] = Math.max(x0, Math.min(x1, p.x[i]!));
    p.y[i] = Math.max(y0, Math.min(y1, p.y[i]!));
  }
  for (let i = 0; i < p.n; i++) refresh(p, i);
}

function lengthOf(p: Packing): number {
  return p.right[0]! - p.problem.bins[0]!.x0;
}

function resultOf(p: Packing): StripResult {
  let end = -Infinity;
  for (let i = 0; i < p.n; i++) end = Math.max(end, p.x[i]! + p.problem.shapes[p.shape[i]!]!.x1);
  return { length: end - p.problem.bins[0]!.x0, layout: snapshot(p), steps: p.steps };
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
