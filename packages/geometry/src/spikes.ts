import type { Point } from "./point.ts";

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
  const [onX, onY] = [after.x - p.x, after.y - p.y];
  const on = onX * onX + onY * onY;
  if (on <= width * width) return true;
  if (before === undefined) return false;
  const [backX, backY] = [before.x - p.x, before.y - p.y];
  if (onX * backX + onY * backY <= 0) return false;
  const back = backX * backX + backY * backY;
  const spread = onX * backY - onY * backX;
  return spread * spread <= width * width * Math.max(on, back);
}
