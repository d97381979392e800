import type { Budget } from "./budget.ts";
import {
  deepestOverlap,
  type Packing,
  refresh,
  restore,
  type Snapshot,
  snapshot,
  totalOverlap,
} from "./packing.ts";
import { roomFor } from "./reseat.ts";
import { normal, type Rng } from "./rng.ts";
import { type SeparateSettings, separate } from "./separate.ts";
import { shake } from "./shake.ts";

/** Which end of sheet 0 moves: its right (x) or its top (y). */
export type Axis = "x" | "y";

/** Another search for the same strip, in a thread of its own: each goes on from the shorter of both layouts. */
export interface Peer {
  share(length: number, layout: Snapshot): void;
  /** A layout of the other's that is shorter than this; null where there is none. */
  shorter(length: number): Snapshot | null;
}

const EXPLORE = { patience: 50, strikes: 2, effort: { anywhere: 40, nearby: 25, refined: 3 } };
/** Of a layout that nearly separated, at a little more length. */
const SETTLE = { patience: 25, strikes: 1, effort: { anywhere: 4, nearby: 25, refined: 2 } };
const COMPRESS = { patience: 60, strikes: 2, effort: { anywhere: 15, nearby: 30, refined: 2 } };

/** How much of its length the strip loses at a time. */
const COARSE = 0.01;
const FINE = 0.002;

/** Two ways are worth more than one: only a search that is far behind leaves its own. */
const FAR_AHEAD = 0.01;

/** The share of the budget for exploring; the rest compresses (measured on four strips: 0.02 to 0.14 of a point in 15 s). */
const EXPLORING = 0.9;

/** Until this share of the budget a search that is stuck begins anew; then the best of all beginnings goes on. */
const BEGINNING = 0.2;

/** A beginning that fails so often on end is stuck; sooner where it is far behind the best. */
const STUCK = { near: 16, far: 4 };

export interface ShrinkOptions {
  readonly peer?: Peer | undefined;
  /** Lays all items anew without overlap, differently each time; where it is missing, there is one beginning only. */
  readonly anew?: () => void;
  /** Rounds without progress until an attempt to separate is given up. */
  readonly patience?: number;
}

/**
 * Shrinks sheet 0 along an axis, from a layout without overlap, as far as the budget allows: explores most of the
 * time, from several beginnings if it may (measured: a point of density on trousers against one beginning), and compresses at
 * the end. `found` sees every shorter layout; the packing is left at the shortest.
 */
export function shrink(
  p: Packing,
  axis: Axis,
  budget: Budget,
  rng: Rng,
  found: () => void,
  { peer, anew, patience = EXPLORE.patience }: ShrinkOptions = {},
): void {
  let best = snapshot(p);
  let least = lengthUsed(p, axis);
  const run: Run = {
    p,
    axis,
    rng,
    effort: { ...EXPLORE, patience },
    keep: () => {
      const length = lengthUsed(p, axis);
      if (length >= least) return;
      best = snapshot(p);
      least = length;
      peer?.share(least, best);
      found();
    },
    join: (lead) => {
      const other = peer?.shorter(least * (1 - lead));
      if (!other) return false;
      restore(p, other);
      best = snapshot(p);
      least = lengthUsed(p, axis);
      found();
      return true;
    },
  };
  const spent = (share: number) => (): boolean => budget.spent(p.steps) >= share;
  const begun = spent(BEGINNING);
  while (anew && !begun()) {
    explore(run, begun, () => (lengthOf(p, axis) > least * (1 + FAR_AHEAD) ? STUCK.far : STUCK.near));
    if (!begun()) anew();
  }
  restore(p, best);
  explore(run, spent(EXPLORING), () => Number.POSITIVE_INFINITY);
  restore(p, best);
  run.join(0);
  compress(run, budget);
  restore(p, best);
}

interface Run {
  readonly p: Packing;
  readonly axis: Axis;
  readonly rng: Rng;
  /** How hard an attempt to separate is tried while exploring. */
  readonly effort: SeparateSettings;
  /** The packing as it is has no overlap: it is kept if it is the best so far. */
  readonly keep: () => void;
  /** Goes over to the peer's layout where it is shorter by this share. */
  readonly join: (lead: number) => boolean;
}

/** How far items reach along the axis. */
export function lengthUsed(p: Packing, axis: Axis): number {
  let end = -Infinity;
  for (let i = 0; i < p.n; i++) {
    const s = p.problem.shapes[p.shape[i]!]!;
    end = Math.max(end, axis === "x" ? p.x[i]! + s.x1 : p.y[i]! + s.y1);
  }
  const bin = p.problem.bins[0]!;
  return end - (axis === "x" ? bin.x0 : bin.y0);
}

/**
 * Shrinks the strip and separates. Coarse steps until the first failure, then fine ones; a failure goes back to one
 * of the infeasible layouts met at this length, the less overlap the likelier, and shakes it. Ends when it is stuck:
 * after as many failures on end as `most` says.
 */
function explore({ p, axis, rng, effort, keep, join }: Run, stop: () => boolean, most: () => number): void {
  let best = snapshot(p);
  let pool: { overlap: number; layout: Snapshot }[] = [];
  let step = COARSE;
  let failures = 0;
  const shorter = (): boolean => setLength(p, axis, lengthOf(p, axis) * (1 - step));
  let possible = shorter();
  while (possible && failures < most() && !stop()) {
    failures++;
    const settled = (): boolean => step === FINE && settle(p, axis, lengthIn(p, axis, best), rng, stop);
    if (separate(p, effort, rng, stop) || settled()) {
      failures = 0;
      keep();
      join(FAR_AHEAD);
      best = snapshot(p);
      pool = [];
      possible = shorter();
    } else if (step > FINE) {
      step = FINE;
      if (!join(FAR_AHEAD)) restore(p, best);
      best = snapshot(p);
      possible = shorter();
    } else if (join(FAR_AHEAD)) {
      best = snapshot(p);
      pool = [];
      possible = shorter();
    } else {
      pool.push({ overlap: totalOverlap(p), layout: snapshot(p) });
      pool.sort((a, b) => a.overlap - b.overlap);
      const pick = Math.min(pool.length - 1, Math.floor(pool.length * 0.25 * Math.abs(normal(rng))));
      restore(p, pool[pick]!.layout);
      shake(p, rng);
    }
  }
}

/**
 * A layout that nearly separated may do so at a length between its own and the best: a quarter of the way is tried, or as
 * much as the deepest overlap, then a quarter more each time. It is left as it was where none will do.
 * Measured on albano and trousers: one failure in thirty to one in ten ends so, with half of the length saved.
 */
function settle(p: Packing, axis: Axis, most: number, rng: Rng, stop: () => boolean): boolean {
  const least = lengthOf(p, axis);
  const room = most - least;
  const depth = deepestOverlap(p);
  if (depth > room) return false;
  const failed = snapshot(p);
  for (let part = Math.max(0.25, depth / room); part < 0.95; part += 0.25) {
    if (!setLength(p, axis, least + part * room)) break;
    if (separate(p, SETTLE, rng, stop)) return true;
  }
  restore(p, failed);
  return false;
}

/** Small cuts at random places, each kept if it can be separated. */
function compress({ p, axis, rng, keep, join }: Run, budget: Budget): void {
  const bin = p.problem.bins[0]!;
  const from = budget.spent(p.steps);
  const stop = (): boolean => budget.spent(p.steps) >= 1;
  let best = snapshot(p);
  while (!stop()) {
    p.steps++;
    if (join(FINE / 4)) best = snapshot(p);
    const through = Math.min(1, (budget.spent(p.steps) - from) / Math.max(1e-9, 1 - from));
    const share = 0.002 * (1 - through) ** 2 + 0.00002;
    const length = lengthOf(p, axis);
    const cut = rng() * length;
    const less = length * share;
    for (let i = 0; i < p.n; i++) {
      const s = p.problem.shapes[p.shape[i]!]!;
      if (axis === "x" && p.x[i]! + (s.x0 + s.x1) / 2 - bin.x0 > cut) p.x[i]! -= less;
      if (axis === "y" && p.y[i]! + (s.y0 + s.y1) / 2 - bin.y0 > cut) p.y[i]! -= less;
    }
    if (!setLength(p, axis, length - less)) return;
    if (separate(p, COMPRESS, rng, stop)) {
      keep();
      best = snapshot(p);
    } else restore(p, best);
  }
}

/** The sheet's end moves; items that would stick out are pushed back, or turned. False where one fits no more. */
export function setLength(p: Packing, axis: Axis, length: number): boolean {
  const bin = p.problem.bins[0]!;
  if (axis === "x") p.right[0] = bin.x0 + length;
  else p.top[0] = bin.y0 + length;
  for (let i = 0; i < p.n; i++) {
    const shapes = [p.shape[i]!, ...p.problem.shapesOf[p.problem.items[i]!]!];
    const s = shapes.find((k) => {
      const [x0, y0, x1, y1] = roomFor(p, k, 0);
      return x0 <= x1 && y0 <= y1;
    });
    if (s === undefined) return false;
    const [x0, y0, x1, y1] = roomFor(p, s, 0);
    p.shape[i] = s;
    p.x[i] = Math.max(x0, Math.min(x1, p.x[i]!));
    p.y[i] = Math.max(y0, Math.min(y1, p.y[i]!));
  }
  for (let i = 0; i < p.n; i++) refresh(p, i);
  return true;
}

function lengthOf(p: Packing, axis: Axis): number {
  return lengthIn(p, axis, p);
}

/** The strip's length in a layout. */
function lengthIn({ problem }: Packing, axis: Axis, { right, top }: Pick<Snapshot, "right" | "top">): number {
  const bin = problem.bins[0]!;
  return axis === "x" ? right[0]! - bin.x0 : top[0]! - bin.y0;
}
