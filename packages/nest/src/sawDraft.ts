import { priceOf } from "./arrange.ts";
import type { Stock } from "./layout.ts";
import type { Rng } from "./rng.ts";
import type { Blank, SawJob, SawRules } from "./sawJob.ts";
import {
  type Axis,
  addSlab,
  fill,
  innerStack,
  type Lying,
  measures,
  openings,
  type Stack,
} from "./sawStack.ts";

/** A sheet as a stack of strips. */
export interface DraftSheet {
  readonly stock: Stock;
  readonly stack: Stack;
}

/** What one order of blanks comes to. */
export interface Draft {
  readonly sheets: readonly DraftSheet[];
  readonly left: readonly number[];
}

/** A blank, or several that have to come from one strip as wide as the measure that they share. */
export interface Item {
  readonly blanks: readonly number[];
  /** The panel axis of the shared measure; null for a single blank. */
  readonly shared: "x" | "y" | null;
}

/** Which way a sheet's first cuts are looked for first. */
export type FirstAxis = (sheet: number) => Axis;

/** Lays items down in order, each where it wastes least, on a new sheet only where none has room. */
export function draft(job: SawJob, items: readonly Item[], firstAxis: FirstAxis, rng: Rng | null): Draft {
  const sheets: DraftSheet[] = [];
  const left: number[] = [];
  for (const item of items) {
    const place = item.shared === null ? placeOne : placeTogether;
    if (place(job, sheets, item, rng) || openSheet(job, sheets, item, firstAxis, place)) continue;
    // What shares a setting but fits no one strip comes from several of the same width.
    if (item.shared === null) left.push(...item.blanks);
    else left.push(...spread(job, sheets, item, firstAxis));
  }
  return { sheets, left };
}

/** How a blank may lie on a sheet of this grain. */
export function turnsOn(blank: Blank, number: number, stock: Stock): readonly Lying[] {
  const [x, y] = blank.size;
  const straight: Lying = { blank: number, turned: false, size: [x, y] };
  const turned: Lying = { blank: number, turned: true, size: [y, x] };
  if (blank.grain === "free") return x === y ? [straight] : [straight, turned];
  return [blank.grain === stock.grain ? straight : turned];
}

export function emptyStack(stock: Stock, { trim }: SawRules, axis: Axis): Stack {
  const [along, across] = axis === "x" ? stock.size : [stock.size[1], stock.size[0]];
  return {
    stage: 1,
    axis,
    length: along - 2 * trim,
    across: across - 2 * trim,
    wholeLength: along - trim,
    wholeAcross: across - trim,
    used: 0,
    slabs: [],
  };
}

type Place = (job: SawJob, sheets: readonly DraftSheet[], item: Item, rng: Rng | null) => boolean;

/** Now and then a search takes a place that is not the best. */
const ASTRAY = 0.15;

const placeOne: Place = (job, sheets, { blanks }, rng) => {
  const number = blanks[0]!;
  const blank = job.blanks[number]!;
  const found = sheets
    .filter(({ stock }) => stock.material === blank.material)
    .flatMap(({ stock, stack }) =>
      turnsOn(blank, number, stock).flatMap((lying) => openings(stack, lying, job.rules.stages)),
    );
  if (found.length === 0) return false;
  const best = found.reduce((a, b) =>
    b.stage !== a.stage && Math.min(a.stage, b.stage) === 1
      ? b.stage > a.stage
        ? b
        : a
      : b.waste < a.waste - 1e-9
        ? b
        : a,
  );
  fill(rng && rng() < ASTRAY ? found[Math.floor(rng() * found.length)]! : best, job.rules.kerf);
  return true;
};

const placeTogether: Place = (job, sheets, item) =>
  sheets.some(({ stock, stack }) => {
    const all = sharing(job, item, stock, stack.axis);
    if (!all) return false;
    const { kerf } = job.rules;
    const [thick] = measures(stack.axis, all[0]!);
    const long = all.reduce((sum, lying) => sum + measures(stack.axis, lying)[1], (all.length - 1) * kerf);
    if (thick > stack.length - stack.used + 1e-6 || long > stack.across + 1e-6) return false;
    addStrip(stack, all, kerf);
    return true;
  });

function addStrip(stack: Stack, all: readonly Lying[], kerf: number): void {
  const [thick] = measures(stack.axis, all[0]!);
  const strip = innerStack(stack, thick);
  for (const lying of all) addSlab(strip, measures(stack.axis, lying)[1], lying, kerf);
  addSlab(stack, thick, strip, kerf);
}

/** The blanks as they must lie so that their shared measure runs along the sheet's first axis; null where it cannot. */
function sharing(job: SawJob, { blanks, shared }: Item, stock: Stock, axis: Axis): readonly Lying[] | null {
  const all = blanks.map((number) =>
    turnsOn(job.blanks[number]!, number, stock).find(({ turned }) => turned === (shared !== axis)),
  );
  const material = blanks.every((number) => job.blanks[number]!.material === stock.material);
  return material && all.every((lying) => lying !== undefined) ? all : null;
}

/** Opens the cheapest sheet that takes the item. */
function openSheet(
  job: SawJob,
  sheets: DraftSheet[],
  item: Item,
  firstAxis: FirstAxis,
  place: Place,
): boolean {
  const first = firstAxis(sheets.length);
  const axes: readonly Axis[] = first === "x" ? ["x", "y"] : ["y", "x"];
  const stocks = job.stocks
    .filter(({ id, count }) => count === null || sheets.filter((s) => s.stock.id === id).length < count)
    .toSorted((a, b) => priceOf(a) - priceOf(b));
  for (const stock of stocks)
    for (const axis of axes) {
      const fresh = { stock, stack: emptyStack(stock, job.rules, axis) };
      if (!place(job, [fresh], item, null)) continue;
      sheets.push(fresh);
      return true;
    }
  return false;
}

/** As many as fit to each strip, the strips all of one width; returns what found no place. */
function spread(job: SawJob, sheets: DraftSheet[], item: Item, firstAxis: FirstAxis): number[] {
  let strip: number[] = [];
  const left: number[] = [];
  const lay = (blanks: readonly number[]): boolean => {
    const part = { blanks, shared: item.shared };
    return (
      blanks.length === 0 ||
      placeTogether(job, sheets, part, null) ||
      openSheet(job, sheets, part, firstAxis, placeTogether)
    );
  };
  for (const number of item.blanks) {
    if (fitsOneStrip(job, { blanks: [...strip, number], shared: item.shared })) strip.push(number);
    else {
      if (!lay(strip)) left.push(...strip);
      strip = [number];
    }
  }
  if (!lay(strip)) left.push(...strip);
  return left;
}

/** Would some empty sheet have a strip for all of them? */
export function fitsOneStrip(job: SawJob, item: Item): boolean {
  return openSheet(job, [], item, () => "x", placeTogether);
}

export function pricesOf({ sheets }: Draft): number {
  return sheets.reduce((sum, { stock }) => sum + priceOf(stock), 0);
}
