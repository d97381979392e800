import { distance, type Point } from "@dryfit/geometry";
import { straightWithin } from "./clear.ts";
import { type Disc, outsideDiscs, type Stretch, THIN_MM, WHOLE } from "./clear-discs.ts";
import { NEAR_MM } from "./clear-engage-link.ts";
import type { Work } from "./clear-engage-work.ts";
import { arcOf, onDisc, widestOnArc, widestOnLine } from "./clear-widest.ts";
import type { Track } from "./plan-track.ts";

/** A way through wood, and the widest engagement along it, radians: exact only where it is within the limit. */
export interface Stroke {
  readonly track: Track;
  readonly widest: number;
}

/**
 * The arcs of a disc's edge that take what is new of it, from the end nearer to the pen. Null: there is no way to
 * cut it. `discs` are all that were cleared near it.
 */
export function strokesTo(work: Work, discs: readonly Disc[], disc: Disc, pen: Point): Stroke[] | null {
  const { radius } = work;
  const edge = { at: disc.at, radius: disc.radius + radius };
  const wood = joined(outsideDiscs(edge, WHOLE, discs, radius + SEEN_MM));
  if (wood.length === 0) return [];
  if (disc.radius < LEAST_DISC_MM) return null;
  const free = joined(outsideDiscs(disc, WHOLE, discs, 0));
  if (free.some(([from, to]) => to - from > LEAST_HOLD)) return null;
  return free.flatMap(([from, to]): Stroke[] => {
    const own = wood.flatMap(([a, b]) => {
      const turn = Math.round(((from + to) / 2 - (a + b) / 2) / (2 * Math.PI)) * 2 * Math.PI;
      return a + turn < to && b + turn > from ? [[a + turn, b + turn] as const] : [];
    });
    if (own.length === 0) return [];
    const [low, high] = [
      Math.max(from, Math.min(...own.map(([a]) => a))),
      Math.min(to, Math.max(...own.map(([, b]) => b))),
    ];
    return [
      halfTurn(work, discs, disc, [low, high], pen) ??
        wholeStroke(work, discs, disc, [from, to], [low, high], pen),
    ];
  });
}

/** What stands out less, a stroke does not go for, mm. */
const SEEN_MM = 0.002;
/** A disc that is smaller leaves nothing that a wall's last pass could not take, mm. */
const LEAST_DISC_MM = 0.005;
/** A stroke this long, radians, has no cleared place to start from. */
const LEAST_HOLD = 2 * Math.PI - 0.2;

/** From the end of what is free, where nothing is engaged yet, to the end of the wood. */
function wholeStroke(
  { radius, limit }: Work,
  discs: readonly Disc[],
  disc: Disc,
  [from, to]: Stretch,
  [low, high]: Stretch,
  pen: Point,
): Stroke {
  const forth = distance(onDisc(disc, from), pen) <= distance(onDisc(disc, to), pen);
  const start = forth ? from : to;
  const sweep = forth ? high - from : low - to;
  return {
    track: arcOf(disc, start, sweep),
    widest: widestOnArc({ discs, radius }, disc, start, sweep, { until: limit }),
  };
}

/**
 * Straight on from the pen, then half a turn about the disc: two blocks where the whole stroke takes three. Null where
 * it leaves more than a chip, where the pen is not near, or where more of the rim would cut than is allowed.
 */
function halfTurn(
  { within, radius, limit }: Work,
  discs: readonly Disc[],
  disc: Disc,
  [low, high]: Stretch,
  pen: Point,
): Stroke | null {
  const spare = (high - low - Math.PI) / 2;
  if (spare < 0 || spare > MOST_SPARE) return null;
  const edge = { at: disc.at, radius: disc.radius + radius };
  const ends: readonly Stretch[] = [
    [low, low + spare],
    [high - spare, high],
  ];
  // What the cutter covers at both ends of the turn, it covers round about, too.
  const turned = ends.map(([from, to], i) => ({ at: onDisc(disc, i === 0 ? to : from), radius: 0 }));
  const gone = [...discs, ...turned];
  if (ends.some((end) => outsideDiscs(edge, end, gone, radius + THIN_MM).length > 0)) return null;
  const forth = distance(onDisc(disc, low + spare), pen) <= distance(onDisc(disc, high - spare), pen);
  const start = forth ? low + spare : high - spare;
  const arc = arcOf(disc, start, forth ? Math.PI : -Math.PI);
  const to = arc[0]!.from;
  const far = distance(pen, to);
  if (far > radius) return null;
  const swept = { discs, radius };
  let widest = 0;
  if (far > NEAR_MM) {
    if (!straightWithin(within, pen, to)) return null;
    widest = widestOnLine(swept, pen, to, { until: limit });
    if (widest > limit) return null;
  }
  widest = Math.max(widest, widestOnArc(swept, disc, start, forth ? Math.PI : -Math.PI, { until: limit }));
  if (widest > limit) return null;
  return { track: far > NEAR_MM ? [{ kind: "line", from: pen, to }, ...arc] : arc, widest };
}

/** Radians: more is left to either side of half a turn only where discs are far apart. */
const MOST_SPARE = 0.3;

function joined(open: Stretch[]): readonly Stretch[] {
  const [first, last] = [open[0], open.at(-1)];
  if (open.length < 2 || first![0] > 0 || last![1] < 2 * Math.PI) return open;
  return [...open.slice(1, -1), [last![0], first![1] + 2 * Math.PI]];
}
