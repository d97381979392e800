import { arctangent, distance, nearest, type Point, pathOf, type Region } from "@dryfit/geometry";
import { straightWithin, tracksOf } from "./clear.ts";
import { type Disc, outsideDiscs, type Stretch, THIN_MM, WHOLE } from "./clear-discs.ts";
import { type Skeleton, skeletonOf } from "./clear-skeleton.ts";
import {
  arcOf,
  engagedOnLine,
  LOOK,
  onDisc,
  widestOnArc,
  widestOnLine,
  widestOnTrack,
} from "./clear-widest.ts";
import type { Direction } from "./plan-options.ts";
import { startedAt, type Track } from "./plan-track.ts";

/** How a piece of a pocket is cleared without ever taking more of the cutter's rim than asked. */
export interface EngagedClearing {
  /** The circle down which the cutter winds itself, from its leftmost place. */
  readonly helix: Disc;
  readonly way: Direction;
  /** Ways at one level, in order; between two the cutter goes up. The last ones run along the walls. */
  readonly runs: readonly Track[];
  /** The widest engagement, radians. */
  readonly widest: number;
}

/**
 * Clears where the cutter's axis may be, `within`, in strokes that are arcs of discs: each disc lies within, and only
 * just far enough from those cleared before that the cutter's rim is never in wood by more than `limit`. First a helix,
 * then a spiral of half turns until the disc fills the roomiest place, then disc after disc along the middle lines,
 * to and fro, into every corner; last the walls. Null: so narrow that the cutter could hardly wind itself down.
 *
 * What is cleared is all of each disc, grown by the cutter's radius; so how much of the rim is in wood follows
 * from circles alone, exactly.
 */
export function engagedClearing(
  within: Region,
  radius: number,
  limit: number,
  way: Direction,
): EngagedClearing | null {
  const skeleton = skeletonOf(within, radius / 4);
  if (skeleton.root.radius < LEAST_ROOM * radius) return null;
  const work: Work = {
    within,
    radius,
    limit: MARGIN * limit,
    skeleton,
    discs: [],
    from: [],
    runs: [],
    widest: 0,
    pen: null,
  };
  const helix = { at: skeleton.root.at, radius: Math.min(skeleton.root.radius, HELIX * radius) };
  spiral(work, helix, way === "climb" ? 1 : -1);
  const grown = work.discs.at(-1)!;
  for (const [i, chain] of skeleton.chains.entries()) follow(work, i === 0 ? [grown, ...chain] : chain);
  for (const wall of tracksOf(within, way)) alongWall(work, wall);
  return { helix, way, runs: work.runs, widest: work.widest };
}

/** The axis must have this much room, in cutter radii: else it takes a slot and no art. */
const LEAST_ROOM = 0.08;
/** Radius of the helix, in cutter radii: less than one, so that no core is left. */
const HELIX = 0.5;
/** Places between those looked at may be a little worse. */
const MARGIN = 0.975;

/** A clearing in the making. */
interface Work {
  readonly within: Region;
  readonly radius: number;
  readonly limit: number;
  readonly skeleton: Skeleton;
  /** Cleared, in order, and for each the disc that it grew from. */
  readonly discs: Disc[];
  readonly from: number[];
  readonly runs: Track[];
  widest: number;
  pen: Point | null;
}

/** Round and round from the helix, each half turn about a middle of its own, as far as there is room. */
function spiral(work: Work, helix: Disc, sense: 1 | -1): void {
  clear(work, helix, -1);
  let pen = { x: helix.at.x - helix.radius, y: helix.at.y };
  work.pen = pen;
  let last = helix;
  const half = (disc: Disc, start: Point): number => {
    const from = arctangent(start.y - disc.at.y, start.x - disc.at.x);
    return widestOnArc(work, disc, from, sense * Math.PI);
  };
  const grownBy = (by: number): Disc => {
    const share = (last.radius + by) / last.radius;
    const at = { x: pen.x + (last.at.x - pen.x) * share, y: pen.y + (last.at.y - pen.y) * share };
    return { at, radius: last.radius + by };
  };
  for (;;) {
    const fits = (by: number): boolean => {
      const disc = grownBy(by);
      return work.skeleton.clearance(disc.at) >= disc.radius && half(disc, pen) <= work.limit;
    };
    const by = largest(fits, work.radius);
    if (by < LEAST_GROWTH_MM) break;
    const disc = grownBy(by);
    const arc = arcOf(disc, arctangent(pen.y - disc.at.y, pen.x - disc.at.x), sense * Math.PI);
    work.widest = Math.max(work.widest, half(disc, pen));
    // Only now is all of the disc before cleared.
    if (last !== helix) clear(work, last, work.discs.length - 1);
    push(work, arc);
    [last, pen] = [disc, arc.at(-1)!.to];
  }
  if (last === helix) return;
  const closing = arcOf(last, arctangent(pen.y - last.at.y, pen.x - last.at.x), sense * Math.PI);
  work.widest = Math.max(work.widest, half(last, pen));
  push(work, closing);
  clear(work, last, work.discs.length - 1);
}

/** A spiral that grows less in half a turn has filled its room, mm. */
const LEAST_GROWTH_MM = 0.02;

/** Disc after disc along a chain, each as far on as the engagement allows. */
function follow(work: Work, chain: readonly Disc[]): void {
  const ways = [0];
  for (let i = 1; i < chain.length; i++) ways.push(ways[i - 1]! + distance(chain[i - 1]!.at, chain[i]!.at));
  let source = sourceOf(work, chain[0]!);
  let k = 0;
  const discAt = (way: number): Disc => {
    while (k > 0 && ways[k]! > way) k--;
    while (k < chain.length - 2 && ways[k + 1]! < way) k++;
    const [a, b] = [chain[k]!, chain[Math.min(k + 1, chain.length - 1)]!];
    const length = (ways[k + 1] ?? 0) - ways[k]!;
    const t = length > 0 ? Math.min(1, (way - ways[k]!) / length) : 1;
    const at = { x: a.at.x + (b.at.x - a.at.x) * t, y: a.at.y + (b.at.y - a.at.y) * t };
    const radius = Math.min(a.radius + (b.radius - a.radius) * t, work.skeleton.clearance(at));
    return { at, radius };
  };
  let way = 0;
  let step = work.radius / 4;
  // As far as there is wood ahead; what is cleared stays so.
  let ahead = chain.length - 1;
  for (;;) {
    while (ahead > 0 && isThin(work, chain[ahead]!)) ahead--;
    const end = ways[ahead]!;
    if (way >= end) return;
    const most = Math.min(end - way, discAt(way).radius + work.radius / 4);
    const fits = (by: number): boolean => {
      const strokes = strokesTo(work, discAt(way + by), work.pen!);
      return strokes?.every(({ widest }) => widest <= work.limit) ?? false;
    };
    const by = Math.max(largest(fits, most, step), Math.min(LEAST_STEP_MM, end - way));
    const disc = discAt(way + by);
    const strokes = strokesTo(work, disc, work.pen!) ?? [];
    if (strokes.length > 0) {
      step = by;
      for (const stroke of strokes) cut(work, stroke, source);
      source = clear(work, disc, source);
    }
    way += by;
  }
}

/** Whether a disc's edge is cleared, but for what is thinner than a chip. */
function isThin({ discs, radius }: Work, disc: Disc): boolean {
  return (
    outsideDiscs({ at: disc.at, radius: disc.radius + radius }, WHOLE, discs, radius + THIN_MM).length === 0
  );
}

/** Steps and discs that are smaller leave nothing that a wall's last pass could not take. */
const LEAST_STEP_MM = 0.001;
const LEAST_DISC_MM = 0.01;

interface Stroke {
  readonly track: Track;
  readonly widest: number;
}

/** The arcs of a disc's edge that take what is new of it, from the end nearer to the pen. Null: there is no way to cut it. */
function strokesTo(work: Work, disc: Disc, pen: Point): Stroke[] | null {
  const { discs, radius } = work;
  const edge = { at: disc.at, radius: disc.radius + radius };
  const wood = joined(outsideDiscs(edge, WHOLE, discs, radius + SEEN_MM));
  if (wood.length === 0) return [];
  if (disc.radius < LEAST_DISC_MM) return null;
  const free = joined(outsideDiscs(disc, WHOLE, discs, 0));
  return free.some(([from, to]) => to - from > LEAST_HOLD)
    ? null
    : free.flatMap(([from, to]): Stroke[] => {
        const own = wood.flatMap(([a, b]) => {
          const turn = Math.round(((from + to) / 2 - (a + b) / 2) / (2 * Math.PI)) * 2 * Math.PI;
          return a + turn < to && b + turn > from ? [[a + turn, b + turn] as const] : [];
        });
        if (own.length === 0) return [];
        const [low, high] = [
          Math.max(from, Math.min(...own.map(([a]) => a))),
          Math.min(to, Math.max(...own.map(([, b]) => b))),
        ];
        const forth = distance(onDisc(disc, from), pen) <= distance(onDisc(disc, to), pen);
        const start = forth ? from : to;
        const sweep = forth ? high - from : low - to;
        return [{ track: arcOf(disc, start, sweep), widest: widestOnArc(work, disc, start, sweep) }];
      });
}

/** What stands out less, a stroke does not go for, mm. */
const SEEN_MM = 0.002;
/** A stroke this long, radians, has no cleared place to start from. */
const LEAST_HOLD = 2 * Math.PI - 0.2;

function joined(open: Stretch[]): readonly Stretch[] {
  const [first, last] = [open[0], open.at(-1)];
  if (open.length < 2 || first![0] > 0 || last![1] < 2 * Math.PI) return open;
  return [...open.slice(1, -1), [last![0], first![1] + 2 * Math.PI]];
}

/** Goes to a stroke's start through what is cleared, and cuts it. */
function cut(work: Work, { track, widest }: Stroke, source: number): void {
  goTo(work, track[0]!.from, source);
  push(work, track);
  work.widest = Math.max(work.widest, widest);
}

/** Straight, or by the middles of cleared discs, as the way allows; else the run ends here and a new one starts. */
function goTo(work: Work, to: Point, source: number): void {
  const from = work.pen!;
  if (distance(from, to) < NEAR_MM) return;
  if (isFree(work, from, to)) {
    push(work, [{ kind: "line", from, to }]);
    return;
  }
  const middles = between(work, work.discs.length - 1, source).map((i) => work.discs[i]!.at);
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
const NEAR_MM = 1e-4;

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
  if (!straightWithin(work.within, from, to)) return false;
  const count = Math.max(1, Math.ceil(distance(from, to) / (LOOK * work.radius)));
  for (let i = 0; i <= count; i++) if (engagedOnLine(work, from, to, i / count) > FREE) return false;
  return true;
}

/** Engagement on the way between strokes, radians: it may brush a wall's scallops. */
const FREE = 0.2;

/** So near to where the last stroke ended, what is left is not yet thin, mm. */
const JUST_CUT_MM = 2;

/** A disc touches a wall that is this close to its edge, mm. */
const TOUCH_MM = 0.005;

/** The last pass along a wall, started where a disc touches it. */
function alongWall(work: Work, wall: Track): void {
  const path = pathOf(wall);
  const places = work.discs.flatMap((disc, i) => {
    const { point, distance: away, s } = nearest(path, disc.at);
    if (Math.abs(away - disc.radius) > TOUCH_MM) return [];
    return [{ i, point, s, from: disc.at, far: work.pen === null ? 0 : distance(work.pen, point) }];
  });
  const sorted = places.sort(
    (a, b) => Number(a.far < JUST_CUT_MM) - Number(b.far < JUST_CUT_MM) || a.far - b.far,
  );
  const start = sorted.find(({ from, point }) => widestOnLine(work, from, point) <= FREE) ?? sorted[0];
  const round = start === undefined ? wall : startedAt(wall, start.s);
  if (start !== undefined && work.pen !== null) goTo(work, start.from, start.i);
  if (start !== undefined && work.pen !== null)
    push(work, [{ kind: "line", from: work.pen, to: round[0]!.from }]);
  else work.pen = null;
  push(work, round);
  work.widest = Math.max(work.widest, widestOnTrack(work, round));
}

/** The largest step that fits, within a few per cent; 0: none does. Tried first about a guess. */
function largest(fits: (by: number) => boolean, most: number, guess: number = most / 4): number {
  let [low, high] = [0, most];
  let by = Math.min(most, guess);
  if (fits(by)) {
    low = by;
    while (low < most && fits(Math.min(most, low * WIDER))) low = Math.min(most, low * WIDER);
    if (low === most) return most;
    high = Math.min(most, low * WIDER);
  } else {
    high = by;
    for (by /= 2; by > LEAST_STEP_MM / 4 && !fits(by); by /= 2) high = by;
    if (by <= LEAST_STEP_MM / 4) return 0;
    low = by;
  }
  while (high - low > CLOSELY * high) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}

const WIDER = 1.25;
const CLOSELY = 0.04;

/** The disc cleared already that holds a chain's start best. */
function sourceOf({ discs }: Work, start: Disc): number {
  const left = discs.map(({ at, radius }) => distance(at, start.at) - radius);
  return left.reduce((best, one, i) => (one < left[best]! ? i : best), 0);
}

function clear(work: Work, disc: Disc, from: number): number {
  work.discs.push(disc);
  work.from.push(from);
  return work.discs.length - 1;
}

function push(work: Work, track: Track): void {
  const last = work.runs.at(-1);
  if (work.pen !== null && last !== undefined) work.runs[work.runs.length - 1] = [...last, ...track];
  else work.runs.push(track);
  work.pen = track.at(-1)!.to;
}
