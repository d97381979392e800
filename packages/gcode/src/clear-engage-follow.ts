import { distance } from "@dryfit/geometry";
import { type Disc, outsideDiscs, THIN_MM, WHOLE } from "./clear-discs.ts";
import { goTo } from "./clear-engage-link.ts";
import { LEAST_STEP_MM, largest } from "./clear-engage-step.ts";
import { type Stroke, strokesTo } from "./clear-engage-stroke.ts";
import { clear, discsAbout, push, type Work } from "./clear-engage-work.ts";

/** Disc after disc along a chain, each as far on as the engagement allows. */
export function follow(work: Work, chain: readonly Disc[]): void {
  const { ways, discAt } = chainOf(work, chain);
  let source = sourceOf(work, chain[0]!);
  let way = 0;
  let step = work.radius / 4;
  // How many steps in a row were no longer than the one before: then longer ones are seldom tried.
  let content = 0;
  // As far as there is wood ahead; what is cleared stays so.
  let ahead = chain.length - 1;
  for (;;) {
    while (ahead > 0 && isThin(work, chain[ahead]!)) ahead--;
    const end = ways[ahead]!;
    if (way >= end) return;
    const here = discAt(way);
    const most = Math.min(end - way, here.radius + work.radius / 4);
    const discs = discsAbout(work, here.at, here.radius + 2 * most);
    const strokesBy = (by: number): readonly Stroke[] | null =>
      strokesTo(work, discs, discAt(way + by), work.pen!);
    const attempt = (by: number): readonly Stroke[] | null => {
      const strokes = strokesBy(by);
      return strokes?.every(({ widest }) => widest <= work.limit) ? strokes : null;
    };
    const found = largest(attempt, most, step, content === 0);
    const by = Math.max(found?.by ?? 0, Math.min(LEAST_STEP_MM, end - way));
    const strokes = (found?.by === by ? found.got : strokesBy(by)) ?? [];
    if (strokes.length > 0) {
      content = by > step || content === MOST_CONTENT ? 0 : content + 1;
      step = by;
      for (const stroke of strokes) cut(work, stroke, source);
      source = clear(work, discAt(way + by), source);
    }
    way += by;
  }
}

const MOST_CONTENT = 5;

/** How far along a chain each of its discs lies, and the disc at any place between. */
function chainOf(
  work: Work,
  chain: readonly Disc[],
): { readonly ways: readonly number[]; readonly discAt: (way: number) => Disc } {
  const ways = [0];
  for (let i = 1; i < chain.length; i++) ways.push(ways[i - 1]! + distance(chain[i - 1]!.at, chain[i]!.at));
  let k = 0;
  const discAt = (way: number): Disc => {
    while (k > 0 && ways[k]! > way) k--;
    while (k < chain.length - 2 && ways[k + 1]! < way) k++;
    const [a, b] = [chain[k]!, chain[Math.min(k + 1, chain.length - 1)]!];
    const length = (ways[k + 1] ?? 0) - ways[k]!;
    const t = length > 0 ? Math.min(1, (way - ways[k]!) / length) : 1;
    const at = { x: a.at.x + (b.at.x - a.at.x) * t, y: a.at.y + (b.at.y - a.at.y) * t };
    return { at, radius: Math.min(a.radius + (b.radius - a.radius) * t, work.room(at)) };
  };
  return { ways, discAt };
}

/** Whether a disc's edge is cleared, but for what is thinner than a chip. */
function isThin(work: Work, { at, radius }: Disc): boolean {
  const discs = discsAbout(work, at, radius);
  return outsideDiscs({ at, radius: radius + work.radius }, WHOLE, discs, work.radius + THIN_MM).length === 0;
}

/** Goes to a stroke's start through what is cleared, and cuts it. */
function cut(work: Work, { track, widest }: Stroke, source: number): void {
  goTo(work, track[0]!.from, source);
  push(work, track);
  work.widest = Math.max(work.widest, widest);
}

/** The disc cleared already that holds a chain's start best. */
function sourceOf({ discs }: Work, start: Disc): number {
  const left = discs.all.map(({ at, radius }) => distance(at, start.at) - radius);
  return left.reduce((best, one, i) => (one < left[best]! ? i : best), 0);
}
