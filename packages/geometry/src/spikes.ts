import { cross, distance, dot, type Point, subtract } from "./point.ts";

/**
 * The ring without sides no longer than `width`, and without spikes no wider: points where it turns straight
 * back. Nothing where nothing else is left.
 */
export function withoutSpikes(ring: readonly Point[], width: number): Point[] {
  const kept: Point[] = [];
  for (const p of ring) {
    kept.push(p);
    while (kept.length > 1 && isNeedless(kept.at(-3), kept.at(-2)!, kept.at(-1)!, width)) kept.splice(-2, 1);
  }
  // The same across the seam between the last point and the first.
  let first = 0;
  for (;;) {
    if (kept.length - first < 3) return [];
    if (isNeedless(kept.at(-2), kept.at(-1)!, kept[first]!, width)) kept.pop();
    else if (isNeedless(kept.at(-1), kept[first]!, kept[first + 1]!, width)) first++;
    else return kept.slice(first);
  }
}

function isNeedless(before: Point | undefined, p: Point, after: Point, width: number): boolean {
  if (distance(p, after) <= width) return true;
  if (before === undefined) return false;
  const [back, on] = [subtract(before, p), subtract(after, p)];
  if (dot(back, on) <= 0) return false;
  return Math.abs(cross(back, on)) <= width * Math.max(Math.hypot(back.x, back.y), Math.hypot(on.x, on.y));
}
