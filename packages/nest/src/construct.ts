import { gather, weighsLess } from "./field.ts";
import { lay, type Packing } from "./packing.ts";
import { roomFor } from "./reseat.ts";
import type { Rng } from "./rng.ts";

/** A place without overlap, and how good it is: smaller is better. */
export interface FreeSeat {
  readonly shape: number;
  readonly x: number;
  readonly y: number;
  readonly bin: number;
  readonly score: number;
}

/** In which order items are laid: those that are hard to place first. */
export function hardestFirst(p: Packing): number[] {
  const hardness = (i: number): number => {
    const s = p.problem.shapes[p.shape[i]!]!;
    return (s.x1 - s.x0) * (s.y1 - s.y0) * Math.max(s.x1 - s.x0, s.y1 - s.y0);
  };
  return Array.from({ length: p.n }, (_, i) => i).sort((a, b) => hardness(b) - hardness(a) || a - b);
}

/**
 * A place on this sheet where item i meets nothing, as far left as sampling and sliding find; null where none turned
 * up. Takes the sheet's corners and sides first, because that is where exact fits are.
 */
export function freeSeat(p: Packing, i: number, bin: number, samples: number, rng: Rng): FreeSeat | null {
  let best: FreeSeat | null = null;
  for (const s of p.problem.shapesOf[p.problem.items[i]!]!) {
    const shape = p.problem.shapes[s]!;
    const room = roomFor(p, s, bin);
    const [x0, y0, x1, y1] = room;
    if (x1 < x0 || y1 < y0) continue;
    gather(p, i, s, bin, x0, y0, x1, y1);
    for (let k = 0; k < samples; k++) {
      let x = k < 4 ? [x0, x0, x1, x1][k]! : x0 + rng() * (x1 - x0);
      let y = k < 4 ? [y0, y1, y0, y1][k]! : y0 + rng() * (y1 - y0);
      if (best && x + shape.x1 > best.score + 0.25 * (shape.x1 - shape.x0)) continue;
      if (isTaken(p, x, y)) continue;
      x = slide(x, x0, (v) => !isTaken(p, v, y));
      y = slide(y, y0, (v) => !isTaken(p, x, v));
      x = slide(x, x0, (v) => !isTaken(p, v, y));
      const score = x + shape.x1;
      if (!best || score < best.score) best = { shape: s, x, y, bin, score };
    }
  }
  return best;
}

/** Lays item i on its free seat. */
export function take(p: Packing, i: number, seat: FreeSeat): void {
  lay(p, i, seat.shape, seat.x, seat.y, seat.bin);
}

/** Towards `low` in halving steps, as long as the way's ends are free. */
function slide(from: number, low: number, isFree: (v: number) => boolean): number {
  let at = from;
  for (let step = (from - low) / 2; step > 1e-4 * (1 + from - low); ) {
    if (at - step >= low && isFree(at - step)) at -= step;
    else step /= 2;
  }
  return at > low && isFree(low) ? low : at;
}

function isTaken(p: Packing, x: number, y: number): boolean {
  p.steps++;
  return !weighsLess(p, x, y, 1e-300, false);
}
