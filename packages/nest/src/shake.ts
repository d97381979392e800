import { lay, type Packing } from "./packing.ts";
import { roomFor } from "./reseat.ts";
import { type Rng, shuffle } from "./rng.ts";

/** Two large items of different kind change places: a shake that small moves cannot make. */
export function swapLarge(p: Packing, rng: Rng): void {
  const bySize = Array.from({ length: p.n }, (_, i) => i).sort((a, b) => areaOf(p, b) - areaOf(p, a));
  const large = bySize.slice(0, Math.max(2, Math.ceil(p.n * 0.5)));
  shuffle(large, rng);
  const a = large[0]!;
  const b = large.find((k) => p.problem.items[k] !== p.problem.items[a]) ?? large[1];
  if (b === undefined) return;
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
