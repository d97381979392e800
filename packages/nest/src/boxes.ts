import type { Part } from "@dryfit/joinery";
import { priceOf } from "./arrange.ts";
import type { NestJob, NestRules, PlacedPart, Sheet, Stock } from "./layout.ts";
import { bestSpot, type Fit, type FreeSpace, freeSpace, occupy, type Rect } from "./rectangles.ts";
import { polygonOf, ringBounds, ringOf, turnRing } from "./ring.ts";
import { radiansOf, type Turn, turnsFor } from "./turns.ts";

/**
 * The first layout, in a few milliseconds: parts as their bounding boxes, in several orders and by several rules,
 * the cheapest kept. Irregular sheets are left to the search by outlines.
 */
export function layBoxes(
  job: NestJob,
  parts: readonly Part[],
  stocks: readonly Stock[],
): readonly Omit<Sheet, "id">[] {
  let best: Attempt | null = null;
  for (const order of ORDERS) {
    const ordered = [...parts].sort((a, b) => order(b) - order(a) || (a.id < b.id ? -1 : 1));
    for (const fit of FITS) {
      const attempt = fillAll(
        job,
        ordered,
        stocks.filter((stock) => !stock.outline),
        fit,
      );
      if (!best || better(attempt, best)) best = attempt;
    }
  }
  return best?.sheets ?? [];
}

interface Attempt {
  readonly sheets: readonly Omit<Sheet, "id">[];
  readonly left: readonly Part[];
  readonly cost: number;
  readonly offcut: number;
}

const ORDERS: readonly ((part: Part) => number)[] = [
  by((w, h) => w * h),
  by((w, h) => Math.max(w, h)),
  by((w, h) => w + h),
  by((_, h) => h),
  by((w) => w),
];
const FITS: readonly Fit[] = ["bottom-left", "short-side", "long-side", "area", "contact"];

function by(measure: (w: number, h: number) => number): (part: Part) => number {
  return (part) => measure(...boxed(part, [{ quarters: 0, angle: 0 }]).turns[0]!.size);
}

/** Sheet after sheet, each of the stock that takes most of what is left, the cheapest of equals. */
function fillAll(job: NestJob, parts: readonly Part[], stocks: readonly Stock[], fit: Fit): Attempt {
  const sheets: Omit<Sheet, "id">[] = [];
  const used = new Map<string, number>();
  let left: readonly Part[] = parts;
  let [cost, offcut] = [0, 0];
  while (left.length > 0) {
    const [chosen] = stocks
      .filter((stock) => stock.count === null || (used.get(stock.id) ?? 0) < stock.count)
      .map((stock) => {
        const boxes = left.map((part) => boxed(part, turnsFor(part, stock, job.turns?.[part.id])));
        return { stock, ...fillSheet(stock, boxes, job.rules, fit) };
      })
      .filter((sheet) => sheet.placed.length > 0)
      .sort((a, b) => a.left.length - b.left.length || priceOf(a.stock) - priceOf(b.stock));
    if (!chosen) break;
    used.set(chosen.stock.id, (used.get(chosen.stock.id) ?? 0) + 1);
    sheets.push({ stock: chosen.stock, parts: chosen.placed });
    left = chosen.left.map((box) => box.part);
    cost += priceOf(chosen.stock);
    offcut = Math.max(offcut, ...chosen.space.free.map((r) => r.w * r.h));
  }
  return { sheets, left, cost, offcut };
}

function better(a: Attempt, b: Attempt): boolean {
  if (a.left.length !== b.left.length) return a.left.length < b.left.length;
  if (a.cost !== b.cost) return a.cost < b.cost;
  if (a.sheets.length !== b.sheets.length) return a.sheets.length < b.sheets.length;
  return a.offcut > b.offcut;
}

/** A part as its bounding box, for each turn that a stock allows. */
export interface Boxed {
  readonly part: Part;
  readonly turns: readonly BoxedTurn[];
}

interface BoxedTurn {
  readonly turn: Turn;
  /** Of the turned outline. */
  readonly min: readonly [number, number];
  readonly size: readonly [number, number];
}

export function boxed(part: Part, turns: readonly Turn[]): Boxed {
  const ring = ringOf(part.outline);
  return {
    part,
    turns: turns.map((turn) => {
      const [x0, y0, x1, y1] = ringBounds(turnRing(ring, radiansOf(turn)));
      return { turn, min: [x0, y0] as const, size: [x1 - x0, y1 - y0] as const };
    }),
  };
}

/** Lays boxes in the given order on one sheet of the stock, as many as fit. */
function fillSheet(
  stock: Stock,
  boxes: readonly Boxed[],
  rules: NestRules,
  fit: Fit,
): { placed: PlacedPart[]; left: Boxed[]; space: FreeSpace } {
  const space = emptySheet(stock, rules);
  const placed: PlacedPart[] = [];
  const left: Boxed[] = [];
  for (const box of boxes) {
    const sizes = box.turns.map(({ size }) => [size[0] + rules.spacing, size[1] + rules.spacing] as const);
    const best = bestSpot(space, sizes, fit);
    if (!best) {
      left.push(box);
      continue;
    }
    const { turn, min } = box.turns[best.spot.turn]!;
    const [w, h] = sizes[best.spot.turn]!;
    occupy(space, { x: best.spot.x, y: best.spot.y, w, h });
    placed.push({
      part: box.part.id,
      placement: {
        flip: false,
        ...turn,
        shift: { x: rules.margin + best.spot.x - min[0], y: rules.margin + best.spot.y - min[1] },
      },
    });
  }
  return { placed, left, space };
}

/** Every box takes the spacing on its right and top, so the sheet grows by one spacing. */
function emptySheet(stock: Stock, { margin, spacing }: NestRules): FreeSpace {
  // A box guards a keep-out's near sides with its own spacing; the keep-out's own is on its right and top too.
  const taken = stock.keepOuts.map((keepOut): Rect => {
    const [x0, y0, x1, y1] = ringBounds(polygonOf(keepOut)[0]!);
    return { x: x0 - margin, y: y0 - margin, w: x1 - x0 + spacing, h: y1 - y0 + spacing };
  });
  return freeSpace(stock.size[0] - 2 * margin + spacing, stock.size[1] - 2 * margin + spacing, taken);
}
