import type { Finding, Part } from "@dryfit/joinery";
import { type Arrangement, arrangementOf, priceOf, resultFrom, sheetsOf } from "./arrange.ts";
import { layBoxes } from "./boxes.ts";
import { type Budget, sliceOf, stepBudget } from "./budget.ts";
import { checkLayout } from "./check.ts";
import { freeUp } from "./freeUp.ts";
import type { Layout, NestJob, Sheet, Stock } from "./layout.ts";
import { aroundLocked } from "./locked.ts";
import { sheetOffcuts } from "./offcut.ts";
import { noPlaceFound, noStockLeft, refusals } from "./refuse.ts";
import { polygonArea } from "./ring.ts";
import { packSheets } from "./sheets.ts";

export interface NestOptions {
  /** What the search may spend; by default a small number of steps, well under a second. */
  readonly budget?: Budget;
  /** Every better layout on the way, valid as it is. */
  readonly onProgress?: (layout: Layout) => void;
}

const DEFAULT_STEPS = 60_000;

/**
 * Parts laid on sheets, around those that are locked: fewest or cheapest sheets first, then the largest reusable rectangle.
 *
 * Never throws for a bad job and never drops a part in silence: what finds no place is `unplaced`, with a finding.
 * Every layout on the way has passed the independent check. The same job, seed and number of steps give the same layout.
 */
export function nest(job: NestJob, options: NestOptions = {}): Layout {
  if (!job.locks?.length) return nestAll(job, options);
  const { rest, whole } = aroundLocked(job);
  const { onProgress } = options;
  const told = onProgress && { onProgress: (layout: Layout) => onProgress(whole(layout)) };
  return whole(nestAll(rest, { ...options, ...told }));
}

function nestAll(job: NestJob, { budget = stepBudget(DEFAULT_STEPS), onProgress }: NestOptions): Layout {
  const { placeable, refused, findings } = refusals(job);
  const materials = [...new Set(placeable.map((part) => part.material))];
  const done: Group[] = materials.map((material) => {
    const parts = placeable.filter((part) => part.material === material);
    const stocks = job.stocks.filter((stock) => stock.material === material && stock.count !== 0);
    return { parts, stocks, sheets: soundOnly(job, parts, layBoxes(job, parts, stocks)) };
  });
  const layout = (): Layout => assemble(done, refused, findings);
  onProgress?.(layout());
  let steps = 0;
  for (const [k, group] of done.entries()) {
    const share = (at: number): number => (k + at) / done.length;
    const arrangement = arrangementOf(job, group.parts, group.stocks);
    const fewer = fewerSheets(job, group, arrangement, sliceOf(budget, steps, share(0), share(0.6)));
    steps += fewer.steps;
    if (offer(job, group, fewer.sheets)) onProgress?.(layout());
    const freer = freeUp(job, arrangement, group.sheets, sliceOf(budget, steps, share(0.6), share(1)));
    steps += freer.steps;
    if (offer(job, group, freer.sheets)) onProgress?.(layout());
  }
  return layout();
}

/** The parts and sheets of one material. */
interface Group {
  readonly parts: readonly Part[];
  readonly stocks: readonly Stock[];
  sheets: readonly Omit<Sheet, "id">[];
}

function fewerSheets(
  job: NestJob,
  group: Group,
  arrangement: Arrangement,
  budget: Budget,
): { sheets: readonly Omit<Sheet, "id">[]; steps: number } {
  const start = resultFrom(arrangement, group.sheets);
  const bound = leastCost(job, arrangement);
  if (start.left.length === 0 && start.cost <= bound + 1e-9) return { sheets: group.sheets, steps: 0 };
  // Boxes that left something over may do better by their real outlines, from nothing.
  const settings = { seed: job.seed, budget, bound, ...(start.left.length === 0 ? { start } : {}) };
  const found = packSheets(arrangement.job, settings);
  return { sheets: sheetsOf(arrangement, found), steps: found.steps };
}

/** Takes the sheets if they are better and sound by the independent check. */
function offer(job: NestJob, group: Group, sheets: readonly Omit<Sheet, "id">[]): boolean {
  if (!isBetter(job, group, sheets, group.sheets)) return false;
  if (faults(job, group.parts, sheets).length > 0) return false;
  group.sheets = sheets;
  return true;
}

/** The sheets without what the independent check objects to: such a part is left to the search by outlines. */
function soundOnly(
  job: NestJob,
  parts: readonly Part[],
  sheets: readonly Omit<Sheet, "id">[],
): readonly Omit<Sheet, "id">[] {
  const wrong = new Set(faults(job, parts, sheets).map(({ path }) => path));
  if (wrong.size === 0) return sheets;
  const kept = sheets
    .map((sheet) => ({ ...sheet, parts: sheet.parts.filter(({ part }) => !wrong.has(part)) }))
    .filter((sheet) => sheet.parts.length > 0);
  const fewer = kept.flatMap((sheet) => sheet.parts).length < sheets.flatMap((sheet) => sheet.parts).length;
  return fewer ? soundOnly(job, parts, kept) : [];
}

function faults(
  job: NestJob,
  parts: readonly Part[],
  sheets: readonly Omit<Sheet, "id">[],
): readonly Finding[] {
  return checkLayout({ ...job, parts }, assemble([{ parts, stocks: [], sheets }], [], []));
}

function isBetter(
  job: NestJob,
  { parts }: Group,
  a: readonly Omit<Sheet, "id">[],
  b: readonly Omit<Sheet, "id">[],
): boolean {
  const placed = (sheets: typeof a): number => sheets.reduce((sum, sheet) => sum + sheet.parts.length, 0);
  if (placed(a) !== placed(b)) return placed(a) > placed(b);
  const cost = (sheets: typeof a): number => sheets.reduce((sum, sheet) => sum + priceOf(sheet.stock), 0);
  if (Math.abs(cost(a) - cost(b)) > 1e-9) return cost(a) < cost(b);
  if (a.length !== b.length) return a.length < b.length;
  return largestOffcut(job, parts, a) > largestOffcut(job, parts, b) + 1e-6;
}

function largestOffcut(job: NestJob, parts: readonly Part[], sheets: readonly Omit<Sheet, "id">[]): number {
  const byId = new Map(parts.map((part) => [part.id, part]));
  const rects = sheets.flatMap((sheet) => sheetOffcuts(sheet, byId, job.rules.spacing));
  return Math.max(0, ...rects.map((r) => r.w * r.h));
}

/** No fewer sheets can hold the parts; 0 where no bound is known, as with sheets of several sizes. */
export function sheetsBound(job: NestJob): number {
  const materials = [...new Set(job.parts.map((part) => part.material))];
  return materials.reduce((sum, material) => {
    const parts = job.parts.filter((part) => part.material === material);
    const stocks = job.stocks.filter((stock) => stock.material === material);
    const [only] = stocks;
    if (!only || stocks.length > 1) return sum;
    return sum + Math.round(leastCost(job, arrangementOf(job, parts, stocks)) / priceOf(only));
  }, 0);
}

/**
 * No set of sheets costs less: grown by half the spacing, parts still share no wood and stay on the sheet grown
 * likewise, and by Brunn-Minkowski a shape of area A grows to (√A + √π·r)² at least.
 */
function leastCost(job: NestJob, { job: { types, items, kinds } }: Arrangement): number {
  const r = job.rules.spacing / 2;
  const grow = (area: number): number => (Math.sqrt(area) + Math.sqrt(Math.PI) * r) ** 2;
  const areas = types.map(({ polygon }) => Math.max(0, polygonArea(polygon)));
  const need = items.reduce((sum, type) => sum + grow(areas[type]!), 0);
  const perCost = kinds.map(({ bin, cost }) => ({
    cost,
    area: (bin.x1 - bin.x0 + 2 * r) * (bin.y1 - bin.y0 + 2 * r),
  }));
  const [only] = perCost;
  if (perCost.length === 1 && only) return Math.ceil(need / only.area - 1e-9) * only.cost;
  const cheapest = Math.min(...perCost.map((k) => k.cost));
  return Math.max(cheapest, need * Math.min(...perCost.map((k) => k.cost / k.area)));
}

function assemble(
  groups: readonly Group[],
  refused: readonly string[],
  findings: readonly Finding[],
): Layout {
  const late: Finding[] = [];
  const unplaced = [...refused];
  for (const { parts, stocks, sheets } of groups) {
    const placed = new Set(sheets.flatMap((sheet) => sheet.parts.map((p) => p.part)));
    for (const part of parts) {
      if (placed.has(part.id)) continue;
      unplaced.push(part.id);
      late.push(stocks.some(({ count }) => count === null) ? noPlaceFound(part) : noStockLeft(part));
    }
  }
  return {
    sheets: groups.flatMap((group) => group.sheets).map((sheet, i) => ({ id: `sheet-${i + 1}`, ...sheet })),
    unplaced,
    findings: [...findings, ...late],
  };
}
