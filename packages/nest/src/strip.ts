import {
  lay,
  type Packing,
  packingOf,
  refresh,
  restore,
  type Snapshot,
  snapshot,
  totalOverlap,
  weigh,
} from "./packing.ts";
import type { Problem } from "./problem.ts";
import { roomFor } from "./reseat.ts";
import { type Rng, rngFrom, shuffle } from "./rng.ts";
import { separate } from "./separate.ts";

/** What is spent and what is left: told from outside, because the search itself has no clock. */
export interface Budget {
  /** Share of the budget used after this many steps; 1 and more: stop. */
  spent(steps: number): number;
}

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

const EXPLORE = { patience: 100, strikes: 3, effort: { anywhere: 40, nearby: 25, refined: 3 } };
const COMPRESS = { patience: 60, strikes: 2, effort: { anywhere: 15, nearby: 30, refined: 2 } };

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

/** Shrinks the strip and separates; after a failure goes on from a shaken infeasible layout. */
function explore(p: Packing, rng: Rng, stop: () => boolean, found: () => void): void {
  let best = snapshot(p);
  let pool: { overlap: number; layout: Snapshot }[] = [];
  let shrink = 0.01;
  setLength(p, lengthOf(p) * (1 - shrink));
  while (!stop()) {
    if (separate(p, EXPLORE, rng, stop)) {
      found();
      best = snapshot(p);
      pool = [];
      setLength(p, lengthOf(p) * (1 - shrink));
      continue;
    }
    if (stop()) return;
    pool.push({ overlap: totalOverlap(p), layout: snapshot(p) });
    pool.sort((a, b) => a.overlap - b.overlap);
    // The less overlap, the likelier.
    const pick = Math.floor(pool.length * rng() * rng());
    restore(p, pool[pick]!.layout);
    if (pool.length > 12) {
      // This length may be out of reach: ask for less from the best one.
      shrink = Math.max(0.0005, shrink / 2);
      restore(p, best);
      setLength(p, lengthOf(p) * (1 - shrink));
      pool = [];
    }
    swapLarge(p, rng);
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

/** Two large items of different kind change places: a shake that small moves cannot make. */
function swapLarge(p: Packing, rng: Rng): void {
  const bySize = Array.from({ length: p.n }, (_, i) => i).sort((a, b) => areaOf(p, b) - areaOf(p, a));
  const large = bySize.slice(0, Math.max(2, Math.ceil(p.n * 0.5)));
  shuffle(large, rng);
  const a = large[0]!;
  const b = large.find((k) => p.problem.items[k] !== p.problem.items[a]) ?? large[1];
  if (b === undefined) return;
  const [ca, cb] = [middle(p, a), middle(p, b)];
  moveTo(p, a, cb, rng);
  moveTo(p, b, ca, rng);
}

function moveTo(p: Packing, i: number, [cx, cy]: readonly [number, number], rng: Rng): void {
  const shapes = p.problem.shapesOf[p.problem.items[i]!]!;
  const s = shapes[Math.floor(rng() * shapes.length)]!;
  const shape = p.problem.shapes[s]!;
  const [x0, y0, x1, y1] = roomFor(p, s, 0);
  if (x1 < x0 || y1 < y0) return;
  const x = Math.max(x0, Math.min(x1, cx - (shape.x0 + shape.x1) / 2));
  const y = Math.max(y0, Math.min(y1, cy - (shape.y0 + shape.y1) / 2));
  lay(p, i, s, x, y, 0);
}

function middle(p: Packing, i: number): readonly [number, number] {
  const s = p.problem.shapes[p.shape[i]!]!;
  return [p.x[i]! + (s.x0 + s.x1) / 2, p.y[i]! + (s.y0 + s.y1) / 2];
}

function areaOf(p: Packing, i: number): number {
  return p.problem.shapes[p.shape[i]!]!.area;
}

/** Large items first, each as far left as sampling finds. */
function constructStrip(p: Packing, rng: Rng): void {
  const { problem, n } = p;
  const order = Array.from({ length: n }, (_, i) => i).sort((a, b) => sizeOf(p, b) - sizeOf(p, a));
  // Items not yet laid stand in no bin.
  p.bin.fill(-1);
  const start = problem.bins[0]!.x0;
  let end = start;
  for (const i of order) {
    let best: { s: number; x: number; y: number; reach: number } | null = null;
    for (const s of problem.shapesOf[problem.items[i]!]!) {
      const shape = problem.shapes[s]!;
      p.right[0] = end + (shape.x1 - shape.x0);
      const [x0, y0, x1, y1] = roomFor(p, s, 0);
      if (y1 < y0) continue;
      for (let k = 0; k < 150; k++) {
        let x = k === 0 ? x1 : x0 + rng() * (x1 - x0);
        const y = y0 + rng() * (y1 - y0);
        if (best && x + shape.x1 > best.reach + 0.1 * (shape.x1 - shape.x0)) continue;
        if (weigh(p, i, s, x, y, 0, 1e-300) > 0) continue;
        // Slide left in halving steps.
        for (let step = (shape.x1 - shape.x0) / 2; step > 1e-3 * (shape.x1 - shape.x0); ) {
          if (x - step >= x0 && weigh(p, i, s, x - step, y, 0, 1e-300) === 0) x -= step;
          else step /= 2;
        }
        if (!best || x + shape.x1 < best.reach) best = { s, x, y, reach: x + shape.x1 };
      }
    }
    const seat = best!;
    lay(p, i, seat.s, seat.x, seat.y, 0);
    end = Math.max(end, seat.reach);
  }
  p.right[0] = end;
  for (let i = 0; i < n; i++) refresh(p, i);
}

function sizeOf(p: Packing, i: number): number {
  const s = p.problem.shapes[p.shape[i]!]!;
  return (s.x1 - s.x0) * (s.y1 - s.y0) * Math.max(s.x1 - s.x0, s.y1 - s.y0);
}
