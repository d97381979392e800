import { distance, type Point } from "@dryfit/geometry";
import { straightWithin } from "./clear.ts";
import { discsAbout, push, type Work } from "./clear-engage-work.ts";
import { engagedOnLine, LOOK } from "./clear-widest.ts";

/** Straight, or by the middles of cleared discs, as the way allows; else the run ends here and a new one starts. */
export function goTo(work: Work, to: Point, source: number): void {
  const from = work.pen!;
  if (distance(from, to) < NEAR_MM) return;
  if (isFree(work, from, to)) {
    push(work, [{ kind: "line", from, to }]);
    return;
  }
  const middles = between(work, work.from.length - 1, source).map((i) => work.discs.all[i]!.at);
  let at = from;
  const legs: Point[] = [];
  for (let i = 0; !isFree(work, at, to); ) {
    let next = middles.length - 1;
    while (next >= i && !isFree(work, at, middles[next]!)) next--;
    if (next < i) {
      work.pen = null;
      return;
    }
    at = middles[next]!;
    legs.push(at);
    i = next + 1;
  }
  for (const leg of [...legs, to]) push(work, [{ kind: "line", from: work.pen!, to: leg }]);
}

/** Closer, the cutter stands there already, mm. */
export const NEAR_MM = 1e-4;

/** The discs from one to another by those they grew from. */
function between(work: Work, from: number, to: number): number[] {
  const back: number[] = [];
  for (let i = from; i >= 0; i = work.from[i]!) back.push(i);
  const place = new Map(back.map((disc, i) => [disc, i]));
  const there: number[] = [];
  let met = to;
  for (; met >= 0 && !place.has(met); met = work.from[met]!) there.push(met);
  return met < 0 ? [] : [...back.slice(0, place.get(met)! + 1), ...there.reverse()];
}

function isFree(work: Work, from: Point, to: Point): boolean {
  const { radius, within } = work;
  if (!straightWithin(within, from, to)) return false;
  const count = Math.max(1, Math.ceil(distance(from, to) / (LOOK * radius)));
  for (let i = 0; i <= count; i++) {
    const t = i / count;
    const at = { x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t };
    if (engagedOnLine({ discs: discsAbout(work, at, 0), radius }, from, to, t) > FREE) return false;
  }
  return true;
}

/** Engagement on the way between strokes, radians: it may brush a wall's scallops. */
export const FREE = 0.2;
