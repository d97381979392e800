import { arctangent, cosine, distance, type Point, SAME_ANGLE, sine } from "@dryfit/geometry";
import { type Disc, engagedAt } from "./clear-discs.ts";
import type { Track } from "./plan-track.ts";

/** What a cutter of this radius has cleared: all that is within it of discs for its axis. */
interface Swept {
  readonly discs: readonly Disc[];
  readonly radius: number;
}

/** The widest engagement along a track, radians, layers thinner than a chip apart. `near`: what was cleared about a place. */
export function widestOnTrack(near: (at: Point) => readonly Disc[], radius: number, track: Track): number {
  return track.reduce((most, edge) => {
    if (edge.kind === "line") {
      const { from, to } = edge;
      const at = (t: number): Point => ({ x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t });
      const look = (t: number): number => engagedOnLine({ discs: near(at(t)), radius }, from, to, t);
      return Math.max(most, widestAlong(distance(from, to), radius, look));
    }
    const disc = { at: edge.centre, radius: edge.radius };
    const start = arctangent(edge.from.y - edge.centre.y, edge.from.x - edge.centre.x);
    const look = (t: number): number => {
      const discs = near(onDisc(disc, start + edge.sweep * t));
      return engagedOnArc({ discs, radius }, disc, start, edge.sweep, t, true);
    };
    return Math.max(most, widestAlong(edge.radius * Math.abs(edge.sweep), radius, look));
  }, 0);
}

/** Above `until` it looks no further: any engagement that is more. */
export function widestOnLine(
  work: Swept,
  from: Point,
  to: Point,
  { until }: { readonly until: number } = { until: Number.POSITIVE_INFINITY },
): number {
  const look = (t: number): number => engagedOnLine(work, from, to, t);
  return widestAlong(distance(from, to), work.radius, look, { until, least: LEAST_LOOKS / 2 });
}

export function engagedOnLine({ discs, radius }: Swept, from: Point, to: Point, t: number): number {
  const [x, y] = [to.x - from.x, to.y - from.y];
  return engagedAt({ x: from.x + x * t, y: from.y + y * t }, arctangent(y, x), discs, radius, true);
}

/** Above `until` it looks no further: any engagement that is more. */
export function widestOnArc(
  swept: Swept,
  disc: Disc,
  from: number,
  sweep: number,
  { until }: { readonly until: number } = { until: Number.POSITIVE_INFINITY },
): number {
  const look = (t: number): number => engagedOnArc(swept, disc, from, sweep, t, false);
  return widestAlong(disc.radius * Math.abs(sweep), swept.radius, look, { until, least: LEAST_LOOKS });
}

function engagedOnArc(
  { discs, radius }: Swept,
  disc: Disc,
  from: number,
  sweep: number,
  t: number,
  chips: boolean,
): number {
  const angle = from + sweep * t;
  return engagedAt(onDisc(disc, angle), angle + (Math.sign(sweep) * Math.PI) / 2, discs, radius, chips);
}

/** When to look no further, and at how many places at least. */
interface Looks {
  readonly until: number;
  readonly least: number;
}

/** Looks here and there, then closer about the widest place. */
function widestAlong(
  length: number,
  radius: number,
  at: (t: number) => number,
  { until, least }: Looks = { until: Number.POSITIVE_INFINITY, least: LEAST_LOOKS },
): number {
  const count = Math.max(least, Math.ceil(length / (LOOK * radius)));
  let best = { t: 0, angle: at(0) };
  const offer = (t: number): void => {
    if (best.angle > until) return;
    const angle = at(t);
    if (angle > best.angle) best = { t, angle };
  };
  for (let i = 1; i <= count; i++) offer(i / count);
  if (best.angle > 0)
    for (let step = 0.5 / count; step > 0.1 / count; step /= 2)
      for (const t of [best.t - step, best.t + step]) if (t > 0 && t < 1) offer(t);
  return best.angle;
}

/** How far apart engagement is looked at, in cutter radii. */
export const LOOK = 0.15;
const LEAST_LOOKS = 10;

export const onDisc = ({ at, radius }: Disc, angle: number): Point => ({
  x: at.x + radius * cosine(angle),
  y: at.y + radius * sine(angle),
});

/** An arc of a disc's edge, in pieces of at most half a turn; too small for an arc in print, in chords. */
export function arcOf(disc: Disc, from: number, sweep: number): Track {
  if (disc.radius < LEAST_ARC_MM) {
    const many = Math.ceil(Math.abs(sweep) / (Math.PI / 3));
    return Array.from({ length: many }, (_, i) => ({
      kind: "line",
      from: onDisc(disc, from + (sweep * i) / many),
      to: onDisc(disc, from + (sweep * (i + 1)) / many),
    }));
  }
  const many = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI + SAME_ANGLE)));
  return Array.from({ length: many }, (_, i) => ({
    kind: "arc",
    from: onDisc(disc, from + (sweep * i) / many),
    to: onDisc(disc, from + (sweep * (i + 1)) / many),
    centre: disc.at,
    radius: disc.radius,
    sweep: sweep / many,
  }));
}

/** Smaller arcs do not bear that their centre and ends are rounded, mm. */
const LEAST_ARC_MM = 0.01;
