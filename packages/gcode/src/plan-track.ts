import {
  along,
  arctangent,
  distance,
  type Point,
  pathOf,
  reversed,
  SAME_POINT_MM,
  type Segment,
  segmentLength,
  segments,
} from "@dryfit/geometry";
import type { CuttingData } from "./cutter.ts";
import type { Move, Position } from "./toolpath.ts";

/** Lines and arcs that the cutter's axis follows, end to end; closed where the last ends at the first's start. */
export type Track = readonly Segment[];

/** A height `z` at the way `s` along a track; between two knots the height runs evenly. mm. */
export interface Knot {
  readonly s: number;
  readonly z: number;
}

/**
 * The moves along `track` at the heights that `knots` give, from the first knot to the last.
 *
 * A closed track may be followed round and round: `s` just grows on. Arcs stay arcs, level or helical;
 * a segment is parted only where the slope changes. The cutter stands at the first knot already.
 */
export function follow(track: Track, knots: readonly Knot[], data: CuttingData): Move[] {
  const moves: Move[] = [];
  const apart = knots.filter((knot, i) => i === 0 || knot.s - knots[i - 1]!.s > SAME_POINT_MM);
  const bends = apart.filter((_, i) => i === 0 || i === apart.length - 1 || bendsAt(apart, i));
  for (let i = 1; i < bends.length; i++) {
    const [from, to] = [bends[i - 1]!, bends[i]!];
    const length = to.s - from.s;
    if (length < SAME_POINT_MM) continue;
    const slope = (to.z - from.z) / length;
    const feed = slopeFeed(slope, data);
    const pieces = stretch(track, from.s, to.s);
    let s = 0;
    pieces.forEach((piece, k) => {
      s += segmentLength(piece);
      // The last piece ends at the knot itself: no float noise in heights.
      moves.push(step(piece, slope === 0 || k === pieces.length - 1 ? to.z : from.z + slope * s, feed));
    });
  }
  return moves;
}

/** The pieces of a track between two ways along it; beyond its length a closed track starts over. */
export function stretch(track: Track, from: number, to: number): Segment[] {
  const pieces: Segment[] = [];
  const round = trackLength(track);
  for (let start = Math.floor(from / round + 1e-9) * round; start < to - SAME_POINT_MM; start += round) {
    let s = start;
    for (const segment of track) {
      const own = segmentLength(segment);
      const [a, b] = [Math.max(from, s), Math.min(to, s + own)];
      if (b - a > SAME_POINT_MM) pieces.push(part(segment, (a - s) / own, (b - s) / own));
      s += own;
    }
  }
  return pieces;
}

/** The same closed track, started the way `s` further on. */
export function startedAt(track: Track, s: number): Track {
  const round = trackLength(track);
  const from = s - Math.floor(s / round) * round;
  if (from < SAME_POINT_MM || round - from < SAME_POINT_MM) return track;
  const circle = wholeCircle(track, pointAlong(track, from));
  if (circle !== null) return circle;
  return [...stretch(track, from, round), ...stretch(track, 0, from)];
}

/** A track that is one circle, in two halves from a point on it; null where it is anything else. */
function wholeCircle(track: Track, start: Point): Track | null {
  const first = track[0]!;
  if (first.kind !== "arc") return null;
  const { centre, radius, sweep } = first;
  const isOne = (s: Segment): boolean =>
    s.kind === "arc" && s.sweep * sweep > 0 && distance(s.centre, centre) < SAME_POINT_MM;
  if (!track.every(isOne)) return null;
  const across = { x: 2 * centre.x - start.x, y: 2 * centre.y - start.y };
  const half = { kind: "arc", centre, radius, sweep: Math.sign(sweep) * Math.PI } as const;
  return [
    { ...half, from: start, to: across },
    { ...half, from: across, to: start },
  ];
}

export function turnedRound(track: Track): Track {
  return segments(reversed(pathOf(track)));
}

export function trackLength(track: Track): number {
  return track.reduce((sum, segment) => sum + segmentLength(segment), 0);
}

/** The point the way `s` along the track, no further than its end. */
export function pointAlong(track: Track, s: number): Point {
  let rest = s;
  for (const segment of track) {
    const own = segmentLength(segment);
    if (rest < own) return along(segment, rest / own);
    rest -= own;
  }
  return track.at(-1)!.to;
}

/** Where a straight way from a to b properly crosses a segment; touching with an end is no crossing. */
export function crosses(segment: Segment, a: Point, b: Point): boolean {
  const length = distance(a, b);
  if (length < SAME_POINT_MM) return false;
  const u = { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
  const side = (p: Point): number => u.x * (p.y - a.y) - u.y * (p.x - a.x);
  const inside = (s: number): boolean => s > TOUCH_MM && s < length - TOUCH_MM;
  if (segment.kind === "line") {
    const [d0, d1] = [side(segment.from), side(segment.to)];
    if (Math.sign(d0) === Math.sign(d1) || Math.abs(d0 - d1) < SAME_POINT_MM) return false;
    const p = along(segment, d0 / (d0 - d1));
    return inside(u.x * (p.x - a.x) + u.y * (p.y - a.y));
  }
  const { centre, radius } = segment;
  const off = side(centre);
  if (Math.abs(off) >= radius) return false;
  const foot = u.x * (centre.x - a.x) + u.y * (centre.y - a.y);
  const reach = Math.sqrt(radius * radius - off * off);
  return [foot - reach, foot + reach].some(
    (s) => inside(s) && onArc(segment, { x: a.x + u.x * s, y: a.y + u.y * s }),
  );
}

/** Feed for a rise of `slope` mm per mm of way: a descent never sinks faster than the plunge feed. */
function slopeFeed(slope: number, data: CuttingData): number {
  if (slope > -LEVEL) return data.feedMmPerMin;
  return Math.min(data.rampMmPerMin, (data.plungeMmPerMin * Math.hypot(1, slope)) / -slope);
}

/** A slope that is none: less than a printed step over the longest sheet. */
const LEVEL = 1e-7;

/** Ways that meet a boundary this close to their own end only touch it, mm: within the tracks' tolerance. */
const TOUCH_MM = 0.005;

function bendsAt(knots: readonly Knot[], i: number): boolean {
  const [a, b, c] = [knots[i - 1]!, knots[i]!, knots[i + 1]!];
  return Math.abs((b.z - a.z) * (c.s - b.s) - (c.z - b.z) * (b.s - a.s)) > SAME_POINT_MM * SAME_POINT_MM;
}

function step(piece: Segment, z: number, feed: number): Move {
  const to: Position = { x: piece.to.x, y: piece.to.y, z };
  return piece.kind === "line"
    ? { kind: "line", to, feed }
    : { kind: "arc", to, centre: piece.centre, sweep: piece.sweep, feed };
}

function part(segment: Segment, t0: number, t1: number): Segment {
  if (t0 <= 0 && t1 >= 1) return segment;
  const ends = { from: along(segment, t0), to: along(segment, t1) };
  return segment.kind === "line"
    ? { kind: "line", ...ends }
    : { ...segment, ...ends, sweep: segment.sweep * (Math.min(1, t1) - Math.max(0, t0)) };
}

function onArc(arc: Segment & { kind: "arc" }, p: Point): boolean {
  const angle = (q: Point): number => arctangent(q.y - arc.centre.y, q.x - arc.centre.x);
  const way = (Math.sign(arc.sweep) * (angle(p) - angle(arc.from))) / (2 * Math.PI);
  return (way - Math.floor(way)) * 2 * Math.PI <= Math.abs(arc.sweep);
}
