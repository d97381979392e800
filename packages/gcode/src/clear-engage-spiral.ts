import { arctangent, type Point } from "@dryfit/geometry";
import type { Disc } from "./clear-discs.ts";
import { largest } from "./clear-engage-step.ts";
import { clear, discsAbout, push, type Work } from "./clear-engage-work.ts";
import { arcOf, widestOnArc } from "./clear-widest.ts";

/** Round and round from the helix, each half turn about a middle of its own, as far as there is room. */
export function spiral(work: Work, helix: Disc, sense: 1 | -1): void {
  clear(work, helix, -1);
  let pen = { x: helix.at.x - helix.radius, y: helix.at.y };
  work.pen = pen;
  let last = helix;
  const half = (disc: Disc, start: Point): number => {
    const from = arctangent(start.y - disc.at.y, start.x - disc.at.x);
    const discs = discsAbout(work, disc.at, disc.radius);
    return widestOnArc({ discs, radius: work.radius }, disc, from, sense * Math.PI);
  };
  const grownBy = (by: number): Disc => {
    const share = (last.radius + by) / last.radius;
    const at = { x: pen.x + (last.at.x - pen.x) * share, y: pen.y + (last.at.y - pen.y) * share };
    return { at, radius: last.radius + by };
  };
  let step = work.radius / 4;
  for (;;) {
    const attempt = (by: number): number | null => {
      const disc = grownBy(by);
      if (work.room(disc.at) < disc.radius) return null;
      const widest = half(disc, pen);
      return widest <= work.limit ? widest : null;
    };
    const found = largest(attempt, work.radius, step);
    if (found === null || found.by < LEAST_GROWTH_MM) break;
    step = found.by;
    const disc = grownBy(found.by);
    const arc = arcOf(disc, arctangent(pen.y - disc.at.y, pen.x - disc.at.x), sense * Math.PI);
    work.widest = Math.max(work.widest, found.got);
    // Only now is all of the disc before cleared.
    if (last !== helix) clear(work, last, work.from.length - 1);
    push(work, arc);
    [last, pen] = [disc, arc.at(-1)!.to];
  }
  if (last === helix) return;
  const closing = arcOf(last, arctangent(pen.y - last.at.y, pen.x - last.at.x), sense * Math.PI);
  work.widest = Math.max(work.widest, half(last, pen));
  push(work, closing);
  clear(work, last, work.from.length - 1);
}

/** A spiral that grows less in half a turn has filled its room, mm. */
const LEAST_GROWTH_MM = 0.02;
