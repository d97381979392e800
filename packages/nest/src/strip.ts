import { type Budget, sliceOf } from "./budget.ts";
import { freeSeat, hardestFirst, take } from "./construct.ts";
import type { Coarseness } from "./cover.ts";
import { solveJigsaw } from "./jigsaw.ts";
import { lay, type Packing, packingOf, refresh, type Snapshot, snapshot } from "./packing.ts";
import type { ItemType, Problem, Shape } from "./problem.ts";
import { type Rng, rngFrom } from "./rng.ts";
import { seatAt } from "./sheets.ts";
import { lengthUsed, type Peer, shrink } from "./shrink.ts";

/**
 * For strips of items with many corners, whose tables take longest: at most a third of a percent of area for time to
 * search. Measured in ten seconds: gardeyn4, of 415 corners an item, 72 % dense instead of 47; gardeyn3, of 89, 61 instead of 51.
 */
export const STRIP_COARSE: Coarseness = { corners: 24, growth: 0.003 };

export interface StripResult {
  readonly length: number;
  readonly layout: Snapshot;
  readonly steps: number;
}

export interface StripSettings {
  /** What the problem was made from: items that leave no waste are put together like a jigsaw. */
  readonly types?: readonly ItemType[];
  readonly seed: number;
  readonly budget: Budget;
  readonly onProgress?: (result: StripResult) => void;
  readonly peer?: Peer;
}

/** The shortest strip found for all items on sheet 0, whose right end is free. */
export function packStrip(problem: Problem, settings: StripSettings): StripResult {
  const { seed, budget, onProgress, peer } = settings;
  const rng = rngFrom(seed);
  const p = packingOf(problem);
  const whole = withoutWaste(p, settings);
  if (whole) {
    onProgress?.(whole);
    return whole;
  }
  standInColumns(p);
  let best = resultOf(p);
  onProgress?.(best);
  const found = (): void => {
    if (lengthUsed(p, "x") >= best.length) return;
    best = resultOf(p);
    onProgress?.(best);
  };
  constructStrip(p, budget, rng);
  found();
  const anew = (): void => constructStrip(p, budget, rng);
  shrink(p, "x", budget, rng, found, { peer, anew, patience: Math.max(LEAST_PATIENCE, MOVES / p.n) });
  return { ...best, steps: p.steps };
}

/**
 * An attempt gets as many moves whether items are few or many, but no fewer rounds than this. Measured: few items, whose
 * rounds are short, want three times as many (albano 88.7 for 88.3: means of six runs of a minute in one thread, half of
 * them with fewer beginnings).
 */
const MOVES = 3600;
const LEAST_PATIENCE = 50;

/** The share of the budget for items that may fill their strip to the last corner. */
const JIGSAW_SHARE = 0.03;

function withoutWaste(p: Packing, { types, seed, budget }: StripSettings): StripResult | null {
  const { items, bins, shapes, shapesOf, widestGap } = p.problem;
  const [bin] = bins;
  if (!types || !bin || bin.obstacles.length > 0 || widestGap > 0) return null;
  const area = items.reduce((sum, type) => sum + shapes[shapesOf[type]![0]!]!.area, 0);
  const height = bin.y1 - bin.y0;
  const spots = solveJigsaw(
    { types, items, width: area / height, height, sheets: 1 },
    { seed, budget: sliceOf(budget, 0, 0, JIGSAW_SHARE) },
  );
  if (!spots) return null;
  for (const spot of spots) {
    const moved = { ...spot, x: spot.x + bin.x0, y: spot.y + bin.y0 };
    seatAt(p, spot.item, types[items[spot.item]!]!, moved, 0);
  }
  return resultOf(p);
}

function resultOf(p: Packing): StripResult {
  return { length: lengthUsed(p, "x"), layout: snapshot(p), steps: p.steps };
}

/** A layout at once, whatever the items: by their boxes, the widest first. */
function standInColumns(p: Packing): void {
  const { items, shapes, shapesOf, bins, widestGap } = p.problem;
  const wide = (i: number): number => widthOf(shapes[shapesOf[items[i]!]![0]!]!);
  const order = Array.from({ length: p.n }, (_, i) => i).sort((a, b) => wide(b) - wide(a) || a - b);
  p.bin.fill(-1);
  p.right[0] = standAtEnd(p, order, bins[0]!.x0 - widestGap);
}

/** Large items first, each as far left as sampling finds; those that the budget does not reach stand at the end. */
function constructStrip(p: Packing, budget: Budget, rng: Rng): void {
  const { problem, n } = p;
  // Items not yet laid stand on no sheet.
  p.bin.fill(-1);
  let end = problem.bins[0]!.x0;
  const order = hardestFirst(p);
  for (const [k, i] of order.entries()) {
    if (budget.spent(p.steps) >= 1) {
      end = standAtEnd(p, order.slice(k), end);
      break;
    }
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

/** Lays items by their boxes, in columns from `end` on: no search, no tables. Returns the strip's new end. */
function standAtEnd(p: Packing, items: readonly number[], end: number): number {
  const { bins, shapes, shapesOf, items: types, widestGap } = p.problem;
  const { y0, y1 } = bins[0]!;
  let [x, y, next] = [end + widestGap, y0, end];
  for (const i of items) {
    const s = shapesOf[types[i]!]!.find((k) => heightOf(shapes[k]!) <= y1 - y0);
    if (s === undefined) throw new RangeError(`item ${i} is wider than the strip`);
    const shape = shapes[s]!;
    if (y + heightOf(shape) > y1) [x, y] = [next + widestGap, y0];
    lay(p, i, s, x - shape.x0, y - shape.y0, 0);
    y += heightOf(shape) + widestGap;
    next = Math.max(next, x + widthOf(shape));
  }
  return next;
}

function heightOf(s: Shape): number {
  return s.y1 - s.y0;
}

function widthOf(s: Shape): number {
  return s.x1 - s.x0;
}
