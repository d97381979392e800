import type { Part } from "@dryfit/joinery";
import type { NestRules, PlacedPart, Stock } from "./layout.ts";
import { bestSpot, type Fit, type FreeSpace, freeSpace, occupy, type Rect } from "./rectangles.ts";
import { polygonOf, ringBounds, ringOf, turnRing } from "./ring.ts";
import { radiansOf, type Turn } from "./turns.ts";

/** A part as its bounding box, for each turn that a stock allows. */
export interface Boxed {
  readonly part: Part;
  readonly turns: readonly BoxedTurn[];
}

export interface BoxedTurn {
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
export function fillSheet(
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
