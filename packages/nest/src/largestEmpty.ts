import type { Rect } from "./rectangles.ts";
import { freeSpace, occupy } from "./rectangles.ts";

/**
 * Rectangles of a sheet that stay free around the taken boxes, largest first, none overlapping another;
 * both sides at least `least`.
 */
export function freeRectangles(w: number, h: number, taken: readonly Rect[], least: number): Rect[] {
  const space = freeSpace(w, h, taken);
  const found: Rect[] = [];
  for (;;) {
    const largest = space.free
      .filter((r) => Math.min(r.w, r.h) >= least)
      .reduce<Rect | null>((a, b) => (a && a.w * a.h >= b.w * b.h ? a : b), null);
    if (!largest) return found;
    found.push(largest);
    occupy(space, largest);
  }
}
