import { lay, type Packing, weigh, weighedItem } from "./packing.ts";
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
  const shapes = p.problem.shapesOf[p.problem.items[i]!]!;
  const best: Seat[] = [];
  keep(best, { shape: p.shape[i]!, x: p.x[i]!, y: p.y[i]!, bin: p.bin[i]!, weight: before }, effort.refined);
  for (let k = 0; k < effort.nearby; k++) {
    const s = shapes.length > 1 && rng() < 0.5 ? shapes[Math.floor(rng() * shapes.length)]! : p.shape[i]!;
    tryNear(p, i, s, best, effort.refined, rng);
  }
  for (let k = 0; k < effort.anywhere; k++)
    tryAnywhere(p, i, shapes[Math.floor(rng() * shapes.length)]!, best, effort.refined, rng);
  const shape = p.problem.shapes[p.shape[i]!]!;
  const size = Math.min(shape.x1 - shape.x0, shape.y1 - shape.y0);
  for (const seat of best) descend(p, i, seat, size * 0.1, size * 0.002, rng);
  const winner = best.reduce((a, b) => (b.weight < a.weight ? b : a));
  descend(p, i, winner, size * 0.002, size * 1e-5, rng);
  if (winner.weight >= before) return 0;
  lay(p, i, winner.shape, winner.x, winner.y, winner.bin);
  return winner.weight - before;
}

/** The box in which a shape's origin may lie, as x0, y0, x1, y1; x1 < x0 where it does not fit. */
export function roomFor(p: Packing, s: number, bin: number): [number, number, number, number] {
  const shape = p.problem.shapes[s]!;
  const b = p.problem.bins[bin]!;
  return [b.x0 - shape.x0, b.y0 - shape.y0, p.right[bin]! - shape.x1, b.y1 - shape.y1];
}

function tryAnywhere(p: Packing, i: number, s: number, best: Seat[], most: number, rng: Rng): void {
  const bin = p.problem.bins.length === 1 ? 0 : Math.floor(rng() * p.problem.bins.length);
  const [x0, y0, x1, y1] = roomFor(p, s, bin);
  if (x1 < x0 || y1 < y0) return;
  consider(p, i, s, x0 + rng() * (x1 - x0), y0 + rng() * (y1 - y0), bin, best, most);
}

function tryNear(p: Packing, i: number, s: number, best: Seat[], most: number, rng: Rng): void {
  const bin = p.bin[i]!;
  const [x0, y0, x1, y1] = roomFor(p, s, bin);
  if (x1 < x0 || y1 < y0) return;
  const [from, to] = [p.problem.shapes[p.shape[i]!]!, p.problem.shapes[s]!];
  // Around the middle of its box, so that a turned shape stays in place.
  const cx = p.x[i]! + (from.x0 + from.x1 - to.x0 - to.x1) / 2;
  const cy = p.y[i]! + (from.y0 + from.y1 - to.y0 - to.y1) / 2;
  const reach = 0.5 * Math.min(from.x1 - from.x0, from.y1 - from.y0);
  const x = clamp(cx + (2 * rng() - 1) * reach, x0, x1);
  const y = clamp(cy + (2 * rng() - 1) * reach, y0, y1);
  consider(p, i, s, x, y, bin, best, most);
}

function consider(
  p: Packing,
  i: number,
  s: number,
  x: number,
  y: number,
  bin: number,
  best: Seat[],
  most: number,
): void {
  const limit = best.length < most ? Infinity : best[best.length - 1]!.weight;
  const weight = weigh(p, i, s, x, y, bin, limit);
  if (weight < limit) keep(best, { shape: s, x, y, bin, weight }, most);
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
  const [x0, y0, x1, y1] = roomFor(p, seat.shape, seat.bin);
  let [sx, sy] = [step, step];
  while ((sx > least || sy > least) && seat.weight > 0) {
    const line = Math.floor(rng() * 4);
    const dx = line === 1 ? 0 : sx;
    const dy = line === 0 ? 0 : line === 3 ? -sy : sy;
    let moved = false;
    for (let sense = 1; sense >= -1; sense -= 2) {
      const x = clamp(seat.x + sense * dx, x0, x1);
      const y = clamp(seat.y + sense * dy, y0, y1);
      const weight = weigh(p, i, seat.shape, x, y, seat.bin, seat.weight);
      if (weight < seat.weight) {
        [seat.x, seat.y, seat.weight] = [x, y, weight];
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
  return v < low ? low : v > high ? high : v;
}
