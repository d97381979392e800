import { type Packing, restore, type Snapshot, snapshot, totalOverlap, weighedItem } from "./packing.ts";
import { type Effort, reseat } from "./reseat.ts";
import { type Rng, shuffle } from "./rng.ts";

export interface SeparateSettings {
  /** Rounds without progress before giving up. */
  readonly patience: number;
  /** Fresh attempts from the best state so far. */
  readonly strikes: number;
  readonly effort: Effort;
}

/**
 * Moves overlapping items until none overlap: guided local search, in which a pair that stays stubborn weighs more
 * every round. True where it succeeded; otherwise the packing is left at its least total overlap.
 *
 * Source: C. Voudouris, E. Tsang 1999 (guided local search); J. Egeblad, B. K. Nielsen, A. Odgaard 2007, and
 * T. Imamichi, M. Yagiura, H. Nagamochi 2009 (overlap minimisation for strip packing).
 */
export function separate(p: Packing, settings: SeparateSettings, rng: Rng, stop: () => boolean): boolean {
  p.weight.fill(1);
  // Even an attempt with nothing to do costs a step, so that every search ends.
  p.steps += p.n;
  let best: Snapshot = snapshot(p);
  let least = totalOverlap(p);
  for (let strike = 0; strike < settings.strikes; strike++) {
    let idle = 0;
    let struck = true;
    while (idle < settings.patience) {
      if (least === 0 || stop()) break;
      round(p, settings.effort, rng, stop);
      const total = totalOverlap(p);
      if (total < least) {
        if (total < 0.98 * least) idle = 0;
        else idle++;
        if (total < 0.98 * least) struck = false;
        least = total;
        best = snapshot(p);
        if (total === 0) return true;
      } else idle++;
      reweigh(p);
    }
    if (least === 0) return true;
    if (stop()) break;
    if (!struck) strike = -1;
    restore(p, best);
  }
  restore(p, best);
  return least === 0;
}

/** Every item that overlaps, once, in random order. */
function round(p: Packing, effort: Effort, rng: Rng, stop: () => boolean): void {
  const order: number[] = [];
  for (let i = 0; i < p.n; i++) if (weighedItem(p, i) > 0) order.push(i);
  shuffle(order, rng);
  for (const i of order) {
    // A first meeting of two shapes of many corners takes long.
    if (stop()) return;
    if (weighedItem(p, i) > 0) reseat(p, i, effort, rng);
  }
}

/** Pairs that overlap gain weight, the deepest most; the others forget. */
function reweigh(p: Packing): void {
  const { n, overlap, weight } = p;
  let deepest = 0;
  for (let k = 0; k < overlap.length; k++) if (overlap[k]! > deepest) deepest = overlap[k]!;
  if (deepest === 0) return;
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= n; j++) {
      const k = i * (n + 1) + j;
      const depth = overlap[k]!;
      if (depth > 0) weight[k] = weight[k]! * (1.2 + 0.8 * (depth / deepest));
      else if (weight[k]! > 1) weight[k] = Math.max(1, 0.95 * weight[k]!);
    }
}
