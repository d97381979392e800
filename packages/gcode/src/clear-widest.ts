import { arctangent, cosine, distance, type Point, SAME_ANGLE, sine } from "@dryfit/geometry";
import { type Disc, engagedAt } from "./clear-discs.ts";
import type { Track } from "./plan-track.ts";

/** What a cutter of this radius has cleared: all that is within it of discs for its axis. */
interface Swept {
  readonly discs: readonly Disc[];
  readonly radius: number;
}

/** The widest engagement along a track, radians, layers thinner than a chip apart. */
export function widestOnTrack(work: Swept, track: Track): number {
  return track.reduce((most, edge) => {
    if (edge.kind === "line") return Math.max(most, widestOnLine(work, edge.from, edge.to));
    const from = arctangent(edge.from.y - edge.centre.y, edge.from.x - edge.centre.x);
    return Math.max(
      most,
      widestOnArc(work, { at: edge.centre, radius: edge.radius }, from, edge.sweep, true),
    );
  }, 0);
}

export function widestOnLine(work: Swept, from: Point, to: Point): number {
  return widestAlong(distance(from, to), work.radius, (t) => engagedOnLine(work, from, to, t));
}

export function engagedOnLine({ discs, radius }: Swept, from: Point, to: Point, t: number): number {
  const [x, y] = [to.x - from.x, to.y - from.y];
  return engagedAt({ x: from.x + x * t, y: from.y + y * t }, arctangent(y, x), discs, radius, true);
}

export function widestOnArc(
  { discs, radius }: Swept,
  disc: Disc,
  from: number,
  sweep: number,
  chips = false,
): number {
  return widestAlong(disc.radius * Math.abs(sweep), radius, (t) => {
    const angle = from + sweep * t;
    return engagedAt(onDisc(disc, angle), angle + (Math.sign(sweep) * Math.PI) / 2, discs, radius, chips);
  });
}

/** Looks here and there, then closer about the widest place. */
function widestAlong(length: number, radius: number, at: (t: number) => number): number {
  const count = Math.max(LEAST_LOOKS, Math.ceil(length / (LOOK * radius)));
  let best = { t: 0, angle: at(0) };
  const offer = (t: number): void => {
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
