import { priceOf } from "./arrange.ts";
import { type Budget, stepBudget } from "./budget.ts";
import type { Layout, NestJob } from "./layout.ts";
import { nest } from "./nest.ts";
import { offcutsOf } from "./offcut.ts";

/** A layout and the number of steps that makes it again. */
export interface Nested {
  readonly layout: Layout;
  readonly steps: number;
}

export interface AnytimeOptions {
  /** Of seconds; that a layout can be made again is owed to rounds of whole steps. */
  readonly within: Budget;
  /** Steps of the first round. */
  readonly first: number;
  /** The very first layout, there in milliseconds. */
  readonly onFirst?: (layout: Layout) => void;
  /** Every better layout, as it comes. */
  readonly onProgress?: (nested: Nested) => void;
}

/**
 * As good a layout as the time allows: rounds of more and more steps, each from the start, the best kept. A round that
 * the time cuts off does not count, so the layout is always one that its number of steps makes again anywhere.
 */
export function nestWithin(job: NestJob, { within, first, onFirst, onProgress }: AnytimeOptions): Nested {
  let told = onFirst;
  const begin = (layout: Layout): void => {
    told?.(layout);
    told = undefined;
  };
  let best: Nested = {
    layout: nest(job, { budget: stepBudget(first), onProgress: begin }),
    steps: first,
  };
  onProgress?.(best);
  for (let steps = 2 * first; ; ) {
    const before = within.spent(Number.POSITIVE_INFINITY);
    if (before >= 1) return best;
    const layout = nest(job, { budget: untilSpent(steps, within) });
    const after = within.spent(Number.POSITIVE_INFINITY);
    if (after >= 1) return best;
    if (isBetter(job, layout, best.layout)) {
      best = { layout, steps };
      onProgress?.(best);
    }
    // The last round is as long as the time that is left; one much shorter than the one before is not worth it.
    const room = (0.8 * (1 - after) * steps) / Math.max(1e-9, after - before);
    const next = Math.round(Math.min(2 * steps, room));
    if (next < 0.5 * steps || steps > MOST_STEPS) return best;
    steps = next;
  }
}

/** A job that is done long before its steps are would go on for ever. */
const MOST_STEPS = 1e9;

/** Ends with its steps or with the time, whichever is first. */
function untilSpent(steps: number, within: Budget): Budget {
  const own = stepBudget(steps);
  return { spent: (now) => (within.spent(now) >= 1 ? 1 : own.spent(now)) };
}

function isBetter(job: NestJob, a: Layout, b: Layout): boolean {
  const [p, q] = [rankOf(job, a), rankOf(job, b)];
  const k = p.findIndex((value, i) => Math.abs(value - q[i]!) > 1e-6);
  return k >= 0 && p[k]! < q[k]!;
}

function rankOf(job: NestJob, layout: Layout): readonly number[] {
  const price = layout.sheets.reduce((sum, { stock }) => sum + priceOf(stock), 0);
  const [largest] = offcutsOf(job, layout);
  return [layout.unplaced.length, price, layout.sheets.length, largest ? -largest.w * largest.h : 0];
}
