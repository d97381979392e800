import { gather, weighsLess } from "./field.ts";
import { lay, type Packing, weighedItem } from "./packing.ts";
import type { Rng } from "./rng.ts";

/** How many places are tried for an item. */
export interface Effort {
  /** Anywhere on the sheets. */
  readonly anywhere: number;
  /** Around where it lies. */
  readonly nearby: number;
  /** How many of the best are refined. */
  readonly refined: number;
}

/** A place for an item and what it weighs there. */
interface Seat {
  shape: number;
  x: number;
  y: number;
  bin: number;
  weight: number;
}

/**
 * Moves item i to the least weighted overlap that can be found: many positions are tried, the best few are
 * refined by coordinate descent. Returns the change (negative: better).
 */
export function reseat(p: Packing, i: number, effort: Effort, rng: Rng): number {
  const before = weighedItem(p, i);
  const best: Seat[] = [];
  keep(best, { shape: p.shape[i]!, x: p.x[i]!, y: p.y[i]!, bin: p.bin[i]!, weight: before }, effort.refined);
  for (const s of p.problem.shapesOf[p.problem.items[i]!]!) {
    tryNear(p, i, s, s === p.shape[i] ? effort.nearby : effort.nearby / 4, best, effort.refined, rng);
  }
  tryAnywhere(p, i, effort.anywhere, best, effort.refined, rng);
  const shape = p.problem.shapes[p.shape[i]!]!;
  const size = Math.min(shape.x1 - shape.x0, shape.y1 - shape.y0);
  for (const seat of best) descend(p, i, seat, size * 0.1, size * 0.002, rng);
  const winner = best.reduce((a, b) => (b.weight < a.weight ? b : a));
  descend(p, i, winner, size * 0.002, size * 1e-5, rng);
  if (winner.weight >= before) return 0;
  lay(p, i, winner.shape, winner.x, winner.y, winner.bin);
  return winner.weight - before;
}

/** x0, y0, x1, y1. */
type Room = readonly [number, number, number, number];

/** The box in which a shape's origin may lie; x1 < x0 or y1 < y0 where it does not fit. */
export function roomFor(p: Packing, s: number, bin: number): Room {
  const shape = p.problem.shapes[s]!;
  const b = p.problem.bins[bin]!;
  return [b.x0 - shape.x0, b.y0 - shape.y0, p.right[bin]! - shape.x1, p.top[bin]! - shape.y1];
}

function tryAnywhere(p: Packing, i: number, count: number, best: Seat[], most: number, rng: Rng): void {
  const shapes = p.problem.shapesOf[p.problem.items[i]!]!;
  const bins = p.active.length;
  // One field serves several samples.
  const batches = Math.min(count, bins === 1 ? shapes.length : 2 * shapes.length);
  const first = Math.floor(rng() * shapes.length);
  for (let b = 0; b < batches; b++) {
    const s = shapes[(first + b) % shapes.length]!;
    const bin = bins === 1 ? p.active[0]! : p.active[Math.floor(rng() * bins)]!;
    const room = roomFor(p, s, bin);
    if (room[2] < room[0] || room[3] < room[1]) continue;
    sample(p, i, s, bin, room, Math.ceil(count / batches), best, most, rng);
  }
}

/** Around the middle of the item's box, so that a turned shape stays in place. */
function tryNear(
  p: Packing,
  i: number,
  s: number,
  count: number,
  best: Seat[],
  most: number,
  rng: Rng,
): void {
  const bin = p.bin[i]!;
  const room = roomFor(p, s, bin);
  if (room[2] < room[0] || room[3] < room[1]) return;
  const [from, to] = [p.problem.shapes[p.shape[i]!]!, p.problem.shapes[s]!];
  const cx = p.x[i]! + (from.x0 + from.x1 - to.x0 - to.x1) / 2;
  const cy = p.y[i]! + (from.y0 + from.y1 - to.y0 - to.y1) / 2;
  const reach = 0.5 * Math.min(from.x1 - from.x0, from.y1 - from.y0);
  const near: Room = [
    clamp(cx - reach, room[0], room[2]),
    clamp(cy - reach, room[1], room[3]),
    clamp(cx + reach, room[0], room[2]),
    clamp(cy + reach, room[1], room[3]),
  ];
  sample(p, i, s, bin, near, count, best, most, rng);
}

function sample(
  p: Packing,
  i: number,
  s: number,
  bin: number,
  room: Room,
  count: number,
  best: Seat[],
  most: number,
  rng: Rng,
): void {
  gather(p, i, s, bin, room[0], room[1], room[2], room[3]);
  const { probe } = p.field;
  const [w, h] = [room[2] - room[0], room[3] - room[1]];
  for (let k = 0; k < count; k++) {
    const x = room[0] + rng() * w;
    const y = room[1] + rng() * h;
    const limit = best.length < most ? Infinity : best[best.length - 1]!.weight;
    if (weighsLess(p, x, y, limit, true)) keep(best, { shape: s, x, y, bin, weight: probe[3]! }, most);
  }
  p.steps += count;
}

/** The list stays sorted and short. */
function keep(best: Seat[], seat: Seat, most: number): void {
  let at = best.length;
  while (at > 0 && best[at - 1]!.weight > seat.weight) at--;
  best.splice(at, 0, seat);
  if (best.length > most) best.length = most;
}

/** Steps along one of four lines at a time; longer after a success, shorter after none. */
function descend(p: Packing, i: number, seat: Seat, step: number, least: number, rng: Rng): void {
  const room = roomFor(p, seat.shape, seat.bin);
  const reach = 6 * step;
  const x0 = Math.max(room[0], seat.x - reach);
  const y0 = Math.max(room[1], seat.y - reach);
  const x1 = Math.min(room[2], seat.x + reach);
  const y1 = Math.min(room[3], seat.y + reach);
  gather(p, i, seat.shape, seat.bin, x0, y0, x1, y1);
  // Known only roughly so far.
  weighsLess(p, seat.x, seat.y, Infinity, false);
  const { probe } = p.field;
  seat.weight = probe[3]!;
  p.steps++;
  let [sx, sy] = [step, step];
  while ((sx > least || sy > least) && seat.weight > 0) {
    const line = Math.floor(rng() * 4);
    const dx = line === 1 ? 0 : sx;
    const dy = line === 0 ? 0 : line === 3 ? -sy : sy;
    let moved = false;
    for (let sense = 1; sense >= -1; sense -= 2) {
      const x = clamp(seat.x + sense * dx, x0, x1);
      const y = clamp(seat.y + sense * dy, y0, y1);
      p.steps++;
      if (weighsLess(p, x, y, seat.weight, false)) {
        [seat.x, seat.y, seat.weight] = [x, y, probe[3]!];
        moved = true;
        break;
      }
    }
    const factor = moved ? 1.1 : 0.5;
    if (line !== 1) sx *= factor;
    if (line !== 0) sy *= factor;
  }
}

function clamp(v: number, low: number, high: number): number {
  return Math.max(low, Math.min(high, v));
}
