import { distanceTo, flatten, type Loop, point } from "@dryfit/geometry";
import type { Span } from "./numbers.ts";

/**
 * How much wood an outline leaves round a rectangle inside it whose corners have radius r.
 * The outline is prepared once: the answer is asked for many rectangles.
 */
export function woodRound(outline: Loop<"panel">, r: number): (x: Span, y: Span) => number {
  const chain = flatten(outline);
  return (x, y) => {
    // The rectangle is all that is within r of a smaller, sharp one.
    const core = { x: { min: x.min + r, max: x.max - r }, y: { min: y.min + r, max: y.max - r } };
    const corners = [core.x.min, core.x.max].flatMap((cx) =>
      [core.y.min, core.y.max].map((cy) => point<"panel">(cx, cy)),
    );
    const fromCorners = corners.map((p) => distanceTo(outline, p));
    const fromOutline = chain.map((p) => Math.hypot(beyond(p.x, core.x), beyond(p.y, core.y)));
    return Math.min(...fromCorners, ...fromOutline) - r;
  };
}

function beyond(at: number, { min, max }: Span): number {
  return Math.max(min - at, at - max, 0);
}
