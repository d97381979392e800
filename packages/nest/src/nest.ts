import type { Finding, Part } from "@dryfit/joinery";
import { type Boxed, boxed, fillSheet } from "./boxes.ts";
import type { Layout, NestJob, Sheet, Stock } from "./layout.ts";
import type { Fit, FreeSpace } from "./rectangles.ts";
import { noStockLeft, refusals } from "./refuse.ts";
import { turnsFor } from "./turns.ts";

/**
 * Parts laid on sheets: fewest or cheapest sheets first, then the largest reusable rectangle.
 *
 * Never throws and never drops a part in silence: what finds no place is `unplaced`, with a finding.
 */
export function nest(job: NestJob): Layout {
  const { placeable, refused, findings } = refusals(job);
  const sheets: Omit<Sheet, "id">[] = [];
  const unplaced = [...refused];
  const late: Finding[] = [];
  for (const material of new Set(placeable.map((part) => part.material))) {
    const parts = placeable.filter((part) => part.material === material);
    const best = bestOf(
      job,
      parts,
      job.stocks.filter((stock) => stock.material === material),
    );
    sheets.push(...best.sheets);
    for (const part of best.left) {
      unplaced.push(part.id);
      late.push(noStockLeft(part));
    }
  }
  return {
    sheets: sheets.map((sheet, i) => ({ id: `sheet-${i + 1}`, ...sheet })),
    unplaced,
    findings: [...findings, ...late],
  };
}

/** A layout of one material on its way, with what the goals compare. */
interface Attempt {
  readonly sheets: readonly Omit<Sheet, "id">[];
  readonly left: readonly Part[];
  readonly cost: number;
  readonly offcut: number;
}

const ORDERS: readonly ((a: Part, b: Part) => number)[] = [
  by((w, h) => w * h),
  by((w, h) => Math.max(w, h)),
  by((w, h) => w + h),
  by((_, h) => h),
  by((w) => w),
];
const FITS: readonly Fit[] = ["bottom-left", "short-side", "long-side", "area", "contact"];

function bestOf(job: NestJob, parts: readonly Part[], stocks: readonly Stock[]): Attempt {
  let best: Attempt | null = null;
  for (const order of ORDERS) {
    const ordered = [...parts].sort((a, b) => order(a, b) || (a.id < b.id ? -1 : 1));
    for (const fit of FITS) {
      const attempt = fillAll(job, ordered, stocks, fit);
      if (!best || better(attempt, best)) best = attempt;
    }
  }
  return best ?? { sheets: [], left: parts, cost: 0, offcut: 0 };
}

function fillAll(job: NestJob, parts: readonly Part[], stocks: readonly Stock[], fit: Fit): Attempt {
  const sheets: Omit<Sheet, "id">[] = [];
  const used = new Map<string, number>();
  let left = [...parts];
  let [cost, offcut] = [0, 0];
  while (left.length > 0) {
    const filled = stocks
      .filter((stock) => stock.count === null || (used.get(stock.id) ?? 0) < stock.count)
      .map((stock) => fillOne(job, left, stock, fit))
      .filter((sheet) => sheet.parts.length > 0)
      .sort((a, b) => a.left.length - b.left.length || priceOf(a.stock) - priceOf(b.stock));
    const chosen = filled[0];
    if (!chosen) break;
    used.set(chosen.stock.id, (used.get(chosen.stock.id) ?? 0) + 1);
    sheets.push({ stock: chosen.stock, parts: chosen.parts });
    left = chosen.left;
    cost += priceOf(chosen.stock);
    offcut = Math.max(offcut, largestFree(chosen.space));
  }
  return { sheets, left, cost, offcut };
}

function fillOne(job: NestJob, parts: readonly Part[], stock: Stock, fit: Fit) {
  const boxes: Boxed[] = parts.map((part) => boxed(part, turnsFor(part, stock, job.turns?.[part.id])));
  const { placed, left, space } = fillSheet(stock, boxes, job.rules, fit);
  return { stock, parts: placed, left: left.map((box) => box.part), space };
}

function better(a: Attempt, b: Attempt): boolean {
  if (a.left.length !== b.left.length) return a.left.length < b.left.length;
  if (a.cost !== b.cost) return a.cost < b.cost;
  if (a.sheets.length !== b.sheets.length) return a.sheets.length < b.sheets.length;
  return a.offcut > b.offcut;
}

/** Where no price is known, wood is paid by area. */
function priceOf(stock: Stock): number {
  return stock.price ?? stock.size[0] * stock.size[1];
}

function largestFree(space: FreeSpace): number {
  return Math.max(0, ...space.free.map((r) => r.w * r.h));
}

function by(measure: (w: number, h: number) => number): (a: Part, b: Part) => number {
  const of = (part: Part): number => {
    const [w, h] = boxed(part, [{ quarters: 0, angle: 0 }]).turns[0]!.size;
    return measure(w, h);
  };
  return (a, b) => of(b) - of(a);
}
