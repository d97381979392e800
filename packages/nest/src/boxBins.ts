import type { Budget } from "./budget.ts";
import { bestSpot, type Fit, type FreeSpace, freeSpace, occupy, type Rect } from "./rectangles.ts";
import { type Rng, rngFrom } from "./rng.ts";

/** A rectangle with the sizes that its turns give it. */
export interface BinBox {
  readonly sizes: readonly (readonly [number, number])[];
}

/** A kind of sheet for rectangles. `count` null: as many as needed. */
export interface BinType {
  readonly w: number;
  readonly h: number;
  readonly cost: number;
  readonly count: number | null;
  readonly taken: readonly Rect[];
}

interface BoxSpot {
  readonly box: number;
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

interface FilledBin {
  readonly type: number;
  readonly spots: readonly BoxSpot[];
  /** Area of the boxes in it. */
  readonly area: number;
}

export interface BoxBins {
  readonly bins: readonly FilledBin[];
  readonly left: readonly number[];
  readonly cost: number;
}

const FITS: readonly Fit[] = ["short-side", "long-side", "area", "bottom-left", "contact"];

/**
 * Rectangles on sheets at the least cost found: a greedy filling first, then again and again a few sheets are
 * emptied and filled anew (large neighbourhood search). Stops at `bound`.
 */
export function packBoxBins(
  boxes: readonly BinBox[],
  types: readonly BinType[],
  { seed, budget, bound }: { seed: number; budget: Budget; bound: number },
): BoxBins {
  const rng = rngFrom(seed);
  const all = boxes.map((_, i) => i);
  const none = types.map(() => 0);
  let steps = 0;
  let best: BoxBins | null = null;
  for (const fit of FITS)
    for (const noise of [0, 0.1]) {
      const tried = fillBins(boxes, types, sortBoxes(boxes, all, noise, rng), fit, none, rng);
      steps += boxes.length;
      if (!best || isBetter(boxes, tried, best)) best = tried;
    }
  let current = best!;
  while (budget.spent(steps) < 1 && !(best!.left.length === 0 && best!.cost <= bound + 1e-9)) {
    const count = Math.min(
      current.bins.length,
      1 + Math.floor(rng() * Math.min(4, current.bins.length)) + (rng() < 0.5 ? 1 : 0),
    );
    const opened = pickBins(boxes, current, count, rng);
    const kept = current.bins.filter((_, k) => !opened.has(k));
    const used = types.map((_, t) => kept.filter((bin) => bin.type === t).length);
    const loose = [
      ...current.left,
      ...current.bins.flatMap((bin, k) => (opened.has(k) ? bin.spots.map((s) => s.box) : [])),
    ];
    steps += loose.length;
    const fit = FITS[Math.floor(rng() * FITS.length)]!;
    const refilled = fillBins(
      boxes,
      types,
      sortBoxes(boxes, loose, rng() < 0.3 ? 0.6 : 0.25, rng),
      fit,
      used,
      rng,
    );
    const bins = [...kept, ...refilled.bins];
    const tried = {
      bins,
      left: refilled.left,
      cost: bins.reduce((sum, bin) => sum + types[bin.type]!.cost, 0),
    };
    if (!isBetter(boxes, current, tried)) current = tried;
    if (isBetter(boxes, current, best!)) best = current;
  }
  return best!;
}

/** Fewer boxes left, then cheaper, then the fuller full ones: one sheet nearly empty is a step to one less. */
function isBetter(boxes: readonly BinBox[], a: BoxBins, b: BoxBins): boolean {
  const [la, lb] = [areaOf(boxes, a.left), areaOf(boxes, b.left)];
  if (la !== lb) return la < lb;
  if (a.cost !== b.cost) return a.cost < b.cost;
  return squares(a) > squares(b);
}

function squares(packed: BoxBins): number {
  return packed.bins.reduce((sum, bin) => sum + bin.area * bin.area, 0);
}

/** The emptiest sheets come up most often. */
function pickBins(boxes: readonly BinBox[], packed: BoxBins, count: number, rng: Rng): Set<number> {
  const byArea = packed.bins.map((_, k) => k).sort((a, b) => packed.bins[a]!.area - packed.bins[b]!.area);
  const picked = new Set<number>();
  if (rng() < 0.5 && boxes.length > 0 && byArea.length > 0)
    picked.add(byArea[Math.floor(rng() * rng() * byArea.length)]!);
  while (picked.size < count) picked.add(Math.floor(rng() * packed.bins.length));
  return picked;
}

/** Large boxes first, more or less; `noise` 0 is exact. */
function sortBoxes(boxes: readonly BinBox[], list: readonly number[], noise: number, rng: Rng): number[] {
  const measure = Math.floor(rng() * 3);
  const keys = new Map(
    list.map((i) => {
      const [w, h] = boxes[i]!.sizes[0]!;
      const size = noise === 0 || measure === 0 ? w * h : measure === 1 ? Math.max(w, h) ** 2 : (w + h) ** 2;
      return [i, size * (1 + noise * (2 * rng() - 1))] as const;
    }),
  );
  return [...list].sort((a, b) => keys.get(b)! - keys.get(a)! || a - b);
}

function fillBins(
  boxes: readonly BinBox[],
  types: readonly BinType[],
  order: readonly number[],
  fit: Fit,
  used: readonly number[],
  rng: Rng,
): BoxBins {
  const counts = [...used];
  const bins: FilledBin[] = [];
  let left: readonly number[] = order;
  let cost = 0;
  while (left.length > 0) {
    let best: { bin: FilledBin; rest: number[]; worth: number } | null = null;
    for (const [t, type] of types.entries()) {
      if (type.count !== null && counts[t]! >= type.count) continue;
      const { bin, rest } = fillOne(boxes, type, t, left, fit);
      // Sheets that hold more wood for the money; noise lets the search try the second best.
      const worth =
        (bin.area / type.cost) * (types.length > 1 ? 1 - 0.1 * rng() : 1) + (rest.length === 0 ? 1e-9 : 0);
      if (bin.spots.length > 0 && (!best || worth > best.worth)) best = { bin, rest, worth };
    }
    if (!best) break;
    best = cheapestHolding(boxes, types, counts, best, left, fit);
    counts[best.bin.type]!++;
    cost += types[best.bin.type]!.cost;
    bins.push(best.bin);
    left = best.rest;
  }
  return { bins, left, cost };
}

/** If the last boxes fit a cheaper sheet too, that one. */
function cheapestHolding<T extends { bin: FilledBin; rest: number[] }>(
  boxes: readonly BinBox[],
  types: readonly BinType[],
  counts: readonly number[],
  best: T,
  left: readonly number[],
  fit: Fit,
): T {
  if (best.rest.length > 0 || types.length === 1) return best;
  let cheapest = best;
  for (const [t, type] of types.entries()) {
    if (type.cost >= types[cheapest.bin.type]!.cost || (type.count !== null && counts[t]! >= type.count))
      continue;
    const { bin, rest } = fillOne(boxes, type, t, left, fit);
    if (rest.length === 0) cheapest = { ...best, bin, rest };
  }
  return cheapest;
}

/** In order, each box where it fits best; what fits nowhere is left. */
function fillOne(
  boxes: readonly BinBox[],
  type: BinType,
  number: number,
  order: readonly number[],
  fit: Fit,
): { bin: FilledBin; rest: number[] } {
  const space: FreeSpace = freeSpace(type.w, type.h, type.taken);
  const spots: BoxSpot[] = [];
  const rest: number[] = [];
  let area = 0;
  for (const box of order) {
    const best = space.free.length === 0 ? null : bestSpot(space, boxes[box]!.sizes, fit);
    if (!best) {
      rest.push(box);
      continue;
    }
    const [w, h] = boxes[box]!.sizes[best.spot.turn]!;
    occupy(space, { x: best.spot.x, y: best.spot.y, w, h });
    spots.push({ box, ...best.spot });
    area += w * h;
  }
  return { bin: { type: number, spots, area }, rest };
}

function areaOf(boxes: readonly BinBox[], list: readonly number[]): number {
  return list.reduce((sum, i) => sum + boxes[i]!.sizes[0]![0] * boxes[i]!.sizes[0]![1], 0);
}
