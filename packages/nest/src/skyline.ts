import { type Budget, sliceOf } from "./budget.ts";
import { perfectStrip } from "./perfectStrip.ts";
import { type Rng, rngFrom } from "./rng.ts";

/** A rectangle for a strip: its length along the strip and its width across, for each turn allowed. */
export interface StripBox {
  readonly sizes: readonly (readonly [length: number, width: number])[];
}

export interface StripSpot {
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

/**
 * Rectangles in a strip of fixed width, as short as found: each fills the lowest notch of the skyline that it suits
 * best; the order that breaks ties is improved by swaps.
 *
 * Source: L. Wei, W.-C. Oon, W. Zhu, A. Lim, "A skyline heuristic for the 2D rectangular packing and strip packing
 * problems", 2011; fitness rule after S. C. H. Leung, D. Zhang, K. M. Sim 2011.
 */
export function packBoxStrip(
  boxes: readonly StripBox[],
  width: number,
  { seed, budget, bound }: { seed: number; budget: Budget; bound: number },
): { length: number; spots: readonly StripSpot[] } {
  const rng = rngFrom(seed);
  const whole = withoutWaste(boxes, width, rng, budget);
  if (whole) return whole;
  let best = { length: Infinity, spots: [] as StripSpot[] };
  let steps = 0;
  const first = new Uint8Array(boxes.length);
  const evaluate = (order: readonly number[]): number => {
    steps += order.length;
    const laid = layAlong(boxes, width, order, first, best.length);
    if (laid.length < best.length) best = laid;
    return laid.length;
  };
  const starts = startOrders(boxes);
  const lengths = starts.map(evaluate);
  const ranked = starts.map((_, i) => i).sort((a, b) => lengths[a]! - lengths[b]!);
  for (let effort = 200; budget.spent(steps) < 1 && best.length > bound * (1 + 1e-9); effort *= 2)
    for (const start of ranked.slice(0, 3)) {
      const done = (): boolean => budget.spent(steps) >= 1 || best.length <= bound * (1 + 1e-9);
      first.fill(0);
      improve([...starts[start]!], first, lengths[start]!, effort, evaluate, rng, done);
    }
  return best;
}

/** The share of the budget for rectangles that may fill their strip to the last corner. */
const PERFECT_SHARE = 0.4;

/** Tried only where whole measures could add up: whatever was not cut from a full strip hardly ever fills one. */
function withoutWaste(
  boxes: readonly StripBox[],
  width: number,
  rng: Rng,
  budget: Budget,
): { length: number; spots: readonly StripSpot[] } | null {
  const measures = boxes.flatMap(({ sizes }) => sizes.flat());
  const length = boxes.reduce((sum, { sizes }) => sum + sizes[0]![0] * sizes[0]![1], 0) / width;
  if (![...measures, length].every(Number.isInteger)) return null;
  const spots = perfectStrip(boxes, width, length, rng, sliceOf(budget, 0, 0, PERFECT_SHARE));
  return spots && { length, spots };
}

/** Two boxes change places in the order, or one is looked at turned first. */
function improve(
  order: number[],
  first: Uint8Array,
  start: number,
  effort: number,
  evaluate: (order: readonly number[]) => number,
  rng: Rng,
  done: () => boolean,
): void {
  let length = start;
  for (let k = 0; k < effort && !done(); k++) {
    const i = Math.floor(rng() * order.length);
    const j = Math.floor(rng() * order.length);
    const turns = rng() < TURNING;
    const change = (): void => {
      if (turns) first[i]! ^= 1;
      else [order[i], order[j]] = [order[j]!, order[i]!];
    };
    change();
    const now = evaluate(order);
    if (now <= length) length = now;
    else change();
  }
}

const TURNING = 0.15;

function startOrders(boxes: readonly StripBox[]): number[][] {
  const measures = [
    (l: number, w: number) => l * w,
    (_: number, w: number) => w,
    (l: number) => l,
    (l: number, w: number) => l + w,
    (l: number, w: number) => Math.max(l, w),
  ];
  return measures.map((measure) => {
    const of = (i: number): number => measure(...boxes[i]!.sizes[0]!);
    return boxes.map((_, i) => i).sort((a, b) => of(b) - of(a) || a - b);
  });
}

/** A level stretch of the skyline: from y, `w` wide, filled up to x. */
interface Level {
  x: number;
  y: number;
  w: number;
}

function layAlong(
  boxes: readonly StripBox[],
  width: number,
  order: readonly number[],
  first: Uint8Array,
  limit: number,
): { length: number; spots: StripSpot[] } {
  const slack = width * 1e-9;
  const spots: StripSpot[] = new Array(boxes.length);
  const left = [...order];
  const levels: Level[] = [{ x: 0, y: 0, w: width }];
  let length = 0;
  while (left.length > 0) {
    const at = lowestLevel(levels);
    const level = levels[at]!;
    const below = at > 0 ? levels[at - 1]!.x - level.x : Infinity;
    const above = at + 1 < levels.length ? levels[at + 1]!.x - level.x : Infinity;
    const chosen = choose(boxes, left, first, level.w, below, above, slack);
    if (!chosen) {
      fillUp(levels, at);
      continue;
    }
    const box = left.splice(chosen.place, 1)[0]!;
    const [l, w] = boxes[box]!.sizes[chosen.turn]!;
    const high = chosen.high;
    spots[box] = { turn: chosen.turn, x: level.x, y: high ? level.y + level.w - w : level.y };
    length = Math.max(length, level.x + l);
    if (length >= limit + slack) return { length: limit + width, spots };
    raise(levels, at, l, w, high, slack);
  }
  return { length, spots };
}

function lowestLevel(levels: readonly Level[]): number {
  let low = 0;
  for (let k = 1; k < levels.length; k++) if (levels[k]!.x < levels[low]!.x) low = k;
  return low;
}

/** The fittest box for a notch; `high`: laid against its upper side. */
function choose(
  boxes: readonly StripBox[],
  left: readonly number[],
  first: Uint8Array,
  room: number,
  below: number,
  above: number,
  slack: number,
): { place: number; turn: number; high: boolean } | null {
  let best: { place: number; turn: number; high: boolean } | null = null;
  let bestFitness = -1;
  const tall = Math.max(below, above);
  const short = Math.min(below, above);
  for (let place = 0; place < left.length; place++) {
    const { sizes } = boxes[left[place]!]!;
    for (let k = 0; k < sizes.length; k++) {
      const turn = (k + first[left[place]!]!) % sizes.length;
      const [l, w] = sizes[turn]!;
      if (w > room + slack) continue;
      const meetsTall = Math.abs(l - tall) <= slack;
      const meetsShort = Math.abs(l - short) <= slack;
      let fitness = 0;
      if (w >= room - slack) fitness = meetsTall || meetsShort ? 4 : l < tall ? 3 : 2;
      else fitness = meetsTall ? 2 : meetsShort ? 1 : 0;
      if (fitness <= bestFitness) continue;
      // Against the side that it levels with, else against the taller one.
      const high = meetsTall ? above >= below : meetsShort ? above < below : above > below;
      best = { place, turn, high };
      bestFitness = fitness;
      if (fitness === 4) return best;
    }
  }
  return best;
}

/** A notch that nothing fits is lost up to its lower neighbour. */
function fillUp(levels: Level[], at: number): void {
  const below = levels[at - 1]?.x ?? Infinity;
  const above = levels[at + 1]?.x ?? Infinity;
  levels[at]!.x = Math.min(below, above);
  mergeAround(levels, at, 0);
}

function raise(levels: Level[], at: number, l: number, w: number, high: boolean, slack: number): void {
  const level = levels[at]!;
  const rest = level.w - w;
  if (rest <= slack) level.x += l;
  else if (high) {
    levels.splice(at + 1, 0, { x: level.x + l, y: level.y + rest, w });
    level.w = rest;
  } else {
    levels.splice(at, 0, { x: level.x + l, y: level.y, w });
    level.y += w;
    level.w = rest;
  }
  mergeAround(levels, at, slack);
}

function mergeAround(levels: Level[], at: number, slack: number): void {
  for (let k = Math.min(at + 2, levels.length - 1); k >= Math.max(1, at - 1); k--) {
    const [a, b] = [levels[k - 1]!, levels[k]!];
    if (Math.abs(a.x - b.x) > slack) continue;
    a.x = Math.max(a.x, b.x);
    a.w += b.w;
    levels.splice(k, 1);
  }
}
