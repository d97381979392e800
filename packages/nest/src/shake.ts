import { lay, type Packing } from "./packing.ts";
import { roomFor } from "./reseat.ts";
import { type Rng, shuffle } from "./rng.ts";

/**
 * A change of a layout that would not separate: from where it leads to, another attempt begins. Measured in two runs each
 * of albano and trousers: each small change led on two to six times as often, for its time, as a swap of large items; a
 * swap reaches what they cannot.
 */
export function shake(p: Packing, rng: Rng): void {
  const changes = [swapLarge, swapNear, moveOne, turnOne, asItIs];
  changes[Math.floor(rng() * changes.length)]!(p, rng);
}

/** Two large items of different kind change places: a shake that small moves cannot make. */
export function swapLarge(p: Packing, rng: Rng): void {
  const bySize = Array.from({ length: p.n }, (_, i) => i).sort((a, b) => areaOf(p, b) - areaOf(p, a));
  const large = bySize.slice(0, Math.max(2, Math.ceil(p.n * 0.5)));
  shuffle(large, rng);
  const a = large[0]!;
  const b = large.find((k) => p.problem.items[k] !== p.problem.items[a]) ?? large[1];
  if (b !== undefined) swap(p, a, b, rng);
}

/** An item changes places with one of another kind that lies near, the nearer the likelier. */
function swapNear(p: Packing, rng: Rng): void {
  const a = Math.floor(rng() * p.n);
  const [ax, ay] = middle(p, a);
  let [other, least] = [-1, Infinity];
  for (let i = 0; i < p.n; i++) {
    if (p.problem.items[i] === p.problem.items[a] || p.bin[i] !== p.bin[a]) continue;
    const [x, y] = middle(p, i);
    const distance = Math.sqrt((x - ax) ** 2 + (y - ay) ** 2) * (0.5 + rng());
    if (distance < least) [other, least] = [i, distance];
  }
  if (other >= 0) swap(p, a, other, rng);
}

function moveOne(p: Packing, rng: Rng): void {
  const i = Math.floor(rng() * p.n);
  const to = Math.floor(rng() * p.active.length);
  const bin = p.active[to]!;
  const { x0, y0 } = p.problem.bins[bin]!;
  const x = x0 + rng() * (p.right[bin]! - x0);
  const y = y0 + rng() * (p.top[bin]! - y0);
  moveTo(p, i, [x, y], bin, rng);
}

function turnOne(p: Packing, rng: Rng): void {
  const i = Math.floor(rng() * p.n);
  moveTo(p, i, middle(p, i), p.bin[i]!, rng);
}

/** The next attempt weighs all pairs anew and goes another way by chance. */
function asItIs(): void {}

function swap(p: Packing, a: number, b: number, rng: Rng): void {
  const [binA, binB] = [p.bin[a]!, p.bin[b]!];
  const [ca, cb] = [middle(p, a), middle(p, b)];
  moveTo(p, a, cb, binB, rng);
  moveTo(p, b, ca, binA, rng);
}

function moveTo(p: Packing, i: number, [cx, cy]: readonly [number, number], bin: number, rng: Rng): void {
  const shapes = p.problem.shapesOf[p.problem.items[i]!]!;
  const s = shapes[Math.floor(rng() * shapes.length)]!;
  const shape = p.problem.shapes[s]!;
  const [x0, y0, x1, y1] = roomFor(p, s, bin);
  if (x1 < x0 || y1 < y0) return;
  const x = Math.max(x0, Math.min(x1, cx - (shape.x0 + shape.x1) / 2));
  const y = Math.max(y0, Math.min(y1, cy - (shape.y0 + shape.y1) / 2));
  lay(p, i, s, x, y, bin);
}

function middle(p: Packing, i: number): readonly [number, number] {
  const s = p.problem.shapes[p.shape[i]!]!;
  return [p.x[i]! + (s.x0 + s.x1) / 2, p.y[i]! + (s.y0 + s.y1) / 2];
}

function areaOf(p: Packing, i: number): number {
  return p.problem.shapes[p.shape[i]!]!.area;
}
