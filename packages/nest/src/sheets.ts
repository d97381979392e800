import { type Budget, sliceOf } from "./budget.ts";
import { freeSeat, hardestFirst, take } from "./construct.ts";
import { solveJigsaw } from "./jigsaw.ts";
import { lay, type Packing, packingOf, refresh, restore, type Snapshot, snapshot } from "./packing.ts";
import { type Bin, type ItemType, problemOf, type Shape } from "./problem.ts";
import { roomFor } from "./reseat.ts";
import { type Ring, ringBounds, turnRing } from "./ring.ts";
import { type Rng, rngFrom } from "./rng.ts";
import { type SeparateSettings, separate } from "./separate.ts";
import { swapLarge } from "./shake.ts";

/** A kind of sheet that one can have `count` of (null: any number), each at this cost. */
export interface SheetKind {
  readonly bin: Bin;
  readonly cost: number;
  /** Area of wood that parts can be cut from. */
  readonly area: number;
  readonly count: number | null;
}

export interface SheetsJob {
  readonly types: readonly ItemType[];
  readonly items: readonly number[];
  readonly gap: number;
  readonly kinds: readonly SheetKind[];
  readonly resolution?: number;
}

/** Where an item lies: its sheet (index into `sheets`), turn (index into its type's turns) and origin. */
export interface SheetSpot {
  readonly item: number;
  readonly sheet: number;
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

export interface SheetsResult {
  /** The kind of each sheet used. */
  readonly sheets: readonly number[];
  readonly spots: readonly SheetSpot[];
  readonly left: readonly number[];
  readonly cost: number;
  readonly steps: number;
}

export interface SheetsSettings {
  readonly seed: number;
  readonly budget: Budget;
  /** A cost that cannot be beaten: the search ends there. */
  readonly bound: number;
  readonly onProgress?: (result: SheetsResult) => void;
  /** A layout to start from instead of the greedy one. */
  readonly start?: SheetsResult | undefined;
}

const SEPARATE: SeparateSettings = {
  patience: 40,
  strikes: 2,
  effort: { anywhere: 50, nearby: 20, refined: 3 },
};

/**
 * All items on the cheapest set of sheets found: a greedy layout first, then cheaper sets of sheets are tried, each
 * by laying the items of a dropped sheet over the others and separating them.
 */
export function packSheets(job: SheetsJob, settings: SheetsSettings): SheetsResult {
  const rng = rngFrom(settings.seed);
  const slots = slotsOf(job);
  const problem = problemOf({ ...job, bins: slots.map((kind) => job.kinds[kind]!.bin) });
  const p = packingOf(problem);
  if (settings.start) adopt(p, job, slots, settings.start);
  else constructSheets(p, job, slots, rng);
  let best = resultOf(p, job, slots);
  settings.onProgress?.(best);
  if (best.left.length > 0 || best.cost <= settings.bound + 1e-9) return best;
  const exact = withoutWaste(p, job, settings);
  if (exact) return exact;
  let kept = snapshot(p);
  let active = p.active;
  const stop = (): boolean => settings.budget.spent(p.steps) >= 1;
  for (let effort = 1; !stop() && best.cost > settings.bound + 1e-9; effort++) {
    const targets = cheaperSets(p, job, slots, active);
    if (targets.length === 0) break;
    for (const target of targets) {
      if (stop()) break;
      if (!squeeze(p, kept, target, effort, rng, stop)) continue;
      kept = snapshot(p);
      active = target;
      best = resultOf(p, job, slots);
      settings.onProgress?.(best);
      break;
    }
  }
  return { ...best, steps: p.steps };
}

/** The share of the budget for jobs that may fill their sheets to the last corner. */
const JIGSAW_SHARE = 0.3;

/** Where the items have exactly the area of some equal plain sheets, they may fit together like a jigsaw. */
function withoutWaste(p: Packing, job: SheetsJob, { seed, budget }: SheetsSettings): SheetsResult | null {
  const [kind] = job.kinds;
  if (job.kinds.length !== 1 || !kind || kind.bin.obstacles.length > 0 || job.gap > 0) return null;
  const { x0, y0, x1, y1 } = kind.bin;
  const sheets = Math.round(totals(p, job) / kind.area);
  if (Math.abs(sheets * kind.area - totals(p, job)) > 1e-9 * kind.area || (kind.count ?? sheets) < sheets)
    return null;
  const spots = solveJigsaw(
    { types: job.types, items: job.items, width: x1 - x0, height: y1 - y0, sheets },
    { seed, budget: sliceOf(budget, p.steps, budget.spent(p.steps), JIGSAW_SHARE) },
  );
  if (!spots) return null;
  return {
    sheets: new Array<number>(sheets).fill(0),
    spots: spots.map((spot) => ({ ...spot, x: spot.x + x0, y: spot.y + y0 })),
    left: [],
    cost: sheets * kind.cost,
    steps: p.steps,
  };
}

/** The kind behind each sheet that could be opened; more than one item a sheet is never needed. */
function slotsOf(job: SheetsJob): number[] {
  return job.kinds.flatMap(({ count }, kind) =>
    new Array<number>(Math.min(count ?? job.items.length, job.items.length)).fill(kind),
  );
}

/** Hardest items first, each on the first open sheet that has room; else a new sheet is opened. */
function constructSheets(p: Packing, job: SheetsJob, slots: readonly number[], rng: Rng): void {
  p.bin.fill(-1);
  p.active = [];
  const order = hardestFirst(p);
  const areas = totals(p, job);
  // Wood for the money, and sheets that hold what is left rather than many small ones.
  const preference = slots
    .map((_, slot) => slot)
    .sort((a, b) => worth(job, slots[a]!, areas) - worth(job, slots[b]!, areas) || a - b);
  for (const i of order) {
    const seat =
      firstSeat(p, i, p.active, rng) ??
      firstSeat(
        p,
        i,
        preference.filter((s) => !p.active.includes(s)),
        rng,
      );
    if (!seat) continue;
    take(p, i, seat);
    if (!p.active.includes(seat.bin)) p.active = [...p.active, seat.bin];
  }
}

function firstSeat(p: Packing, i: number, bins: readonly number[], rng: Rng): ReturnType<typeof freeSeat> {
  let kindSeen: Bin | null = null;
  for (const bin of bins) {
    const fresh = !p.active.includes(bin);
    // Empty sheets of one kind are all alike.
    if (fresh && kindSeen === p.problem.bins[bin]) continue;
    if (fresh) kindSeen = p.problem.bins[bin]!;
    const seat = freeSeat(p, i, bin, 60, rng);
    if (seat) return seat;
  }
  return null;
}

function worth(job: SheetsJob, kind: number, itemArea: number): number {
  const { cost, area } = job.kinds[kind]!;
  return cost / Math.min(area, itemArea);
}

function totals(p: Packing, job: SheetsJob): number {
  return job.items.reduce((sum, type) => sum + p.problem.shapes[p.problem.shapesOf[type]![0]!]!.area, 0);
}

/** Sets of sheets that cost less than the open ones and have area enough: one dropped, one swapped for a cheaper. */
function cheaperSets(
  p: Packing,
  job: SheetsJob,
  slots: readonly number[],
  active: readonly number[],
): number[][] {
  const need = totals(p, job);
  const areaOf = (set: readonly number[]): number =>
    set.reduce((sum, s) => sum + job.kinds[slots[s]!]!.area, 0);
  const costOf = (set: readonly number[]): number =>
    set.reduce((sum, s) => sum + job.kinds[slots[s]!]!.cost, 0);
  const now = costOf(active);
  const free = slots.map((_, s) => s).filter((s) => !active.includes(s));
  const fresh = free.filter((s, k) => free.findIndex((t) => slots[t] === slots[s]) === k);
  const sets = active.flatMap((drop) => {
    const rest = active.filter((s) => s !== drop);
    return [rest, ...fresh.filter((s) => slots[s] !== slots[drop]).map((s) => [...rest, s])];
  });
  return sets
    .filter((set) => set.length > 0 && areaOf(set) >= need * (1 - 1e-9) && costOf(set) < now - 1e-9)
    .sort((a, b) => fullness(p, active, a) - fullness(p, active, b) || costOf(a) - costOf(b))
    .slice(0, 8);
}

/** Area of the items on sheets that this set gives up: the less, the easier. */
function fullness(p: Packing, active: readonly number[], set: readonly number[]): number {
  let area = 0;
  for (let i = 0; i < p.n; i++)
    if (active.includes(p.bin[i]!) && !set.includes(p.bin[i]!)) area += p.problem.shapes[p.shape[i]!]!.area;
  return area;
}

/** Tries to lay everything on these sheets alone, starting from a layout on others. */
function squeeze(
  p: Packing,
  from: Snapshot,
  target: readonly number[],
  effort: number,
  rng: Rng,
  stop: () => boolean,
): boolean {
  restore(p, from);
  p.active = target;
  p.steps += p.n;
  for (let i = 0; i < p.n; i++) if (!target.includes(p.bin[i]!) && !dropAnywhere(p, i, rng)) return false;
  for (let attempt = 0; attempt <= effort && !stop(); attempt++) {
    if (separate(p, SEPARATE, rng, stop)) return true;
    swapLarge(p, rng);
  }
  return false;
}

/** False where it fits none of the sheets. */
function dropAnywhere(p: Packing, i: number, rng: Rng): boolean {
  const shapes = p.problem.shapesOf[p.problem.items[i]!]!;
  for (let k = 0; k < 50; k++) {
    const s = shapes[Math.floor(rng() * shapes.length)]!;
    const bin = p.active[Math.floor(rng() * p.active.length)]!;
    const [x0, y0, x1, y1] = roomFor(p, s, bin);
    if (x1 < x0 || y1 < y0) continue;
    lay(p, i, s, x0 + rng() * (x1 - x0), y0 + rng() * (y1 - y0), bin);
    return true;
  }
  return false;
}

function adopt(p: Packing, job: SheetsJob, slots: readonly number[], start: SheetsResult): void {
  const taken = new Set<number>();
  const slotOf = start.sheets.map((kind) => {
    const slot = slots.findIndex((k, s) => k === kind && !taken.has(s));
    taken.add(slot);
    return slot;
  });
  p.active = slotOf;
  p.bin.fill(-1);
  for (const spot of start.spots) {
    seatAt(p, spot.item, job.types[job.items[spot.item]!]!, spot, slotOf[spot.sheet]!);
  }
  for (let i = 0; i < p.n; i++) if (p.bin[i]! >= 0) refresh(p, i);
}

/** Lays item i where a spot says; its overlaps are not brought up to date. */
export function seatAt(
  p: Packing,
  i: number,
  type: ItemType,
  spot: Pick<SheetSpot, "turn" | "x" | "y">,
  bin: number,
): void {
  const [ring, turn] = [type.polygon[0]!, type.turns[spot.turn]!];
  const [x0, y0] = ringBounds(turnRing(ring, turn));
  const { shapes } = p.problem;
  const own = p.problem.shapesOf[p.problem.items[i]!]!;
  // A turn that only shifts the shape is not kept twice; its box is the same.
  const s =
    own.find((k) => shapes[k]!.turn === spot.turn) ??
    own.find((k) => sameBox(shapes[k]!, ring, turn)) ??
    own[0]!;
  p.shape[i] = s;
  p.x[i] = spot.x + x0 - shapes[s]!.x0;
  p.y[i] = spot.y + y0 - shapes[s]!.y0;
  p.bin[i] = bin;
}

function sameBox(shape: Shape, ring: Ring, turn: number): boolean {
  const [x0, y0, x1, y1] = ringBounds(turnRing(ring, turn));
  return Math.abs(shape.x1 - shape.x0 - x1 + x0) + Math.abs(shape.y1 - shape.y0 - y1 + y0) < 1e-6;
}

function resultOf(p: Packing, job: SheetsJob, slots: readonly number[]): SheetsResult {
  const used = p.active.filter((slot) => p.bin.includes(slot));
  const spots: SheetSpot[] = [];
  const left: number[] = [];
  for (let item = 0; item < p.n; item++) {
    if (p.bin[item]! < 0) left.push(item);
    else
      spots.push({
        item,
        sheet: used.indexOf(p.bin[item]!),
        turn: p.problem.shapes[p.shape[item]!]!.turn,
        x: p.x[item]!,
        y: p.y[item]!,
      });
  }
  return {
    sheets: used.map((slot) => slots[slot]!),
    spots,
    left,
    cost: used.reduce((sum, slot) => sum + job.kinds[slots[slot]!]!.cost, 0),
    steps: p.steps,
  };
}
