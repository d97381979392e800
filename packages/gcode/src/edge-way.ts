import {
  along,
  CUT_MM,
  contains,
  difference,
  differenceFlat,
  directionAt,
  distanceTo,
  EDGE_MM,
  intersectionFlat,
  type Loop,
  lengthOf,
  nearest,
  offset,
  offsetFlat,
  type Path,
  type Point,
  pathOf,
  pointAt,
  polygon,
  type Region,
  type Segment,
  segments,
  sweep,
  sweepFlat,
} from "@dryfit/geometry";
import type { Part, RoundOver } from "@dryfit/joinery";
import type { EdgeTool } from "./edge-tool.ts";
import { pointAlong, startedAt, stretch, type Track, trackLength, turnedRound } from "./plan-track.ts";

/** Where a shaped cutter runs along an edge, in the panel's frame. */
export interface EdgeWay {
  /** Of the cutter's axis. */
  readonly track: Track;
  /** How much of the edge's run it leaves at its start and its end, mm: round ends, finished by hand. */
  readonly left: readonly [number, number];
  /** All that it cuts or needs free at the face. */
  readonly reach: readonly Region[];
  /** What must be cleared outside the part before. */
  readonly channel: readonly Region[];
}

/**
 * The way of a shaped cutter along a rounded run, or why there is none, as the end of a sentence.
 *
 * It follows the outline's own parallel. Where the edge goes straight on beyond the run, the cutter stops short of
 * the run's end by so much that it takes nothing beyond it.
 */
export function edgeWay(part: Part, over: RoundOver, tool: EdgeTool): EdgeWay | string {
  const [outline, run]: [Loop, Path] = [part.outline, over.run];
  const track = parallelTo(outline, run, tool.axis);
  if (track === null || !followsAll(track, run, tool.axis)) return "the cutter does not get into its hollows";
  const stops = Math.sqrt(tool.radius ** 2 - tool.axis ** 2);
  const body = [{ outer: outline, holes: [] }];
  const allowed = differenceFlat(sweepFlat([run], over.radius), beyondEnds(run, over.radius));
  const ways = ENDS.map(([a, b]) => [a * stops, b * stops] as const).flatMap((left) => {
    const length = trackLength(track);
    if (left[0] + left[1] > length - 1) return [];
    const own = stretch(track, left[0], length - left[1]);
    const taken = differenceFlat(intersectionFlat(sweepFlat([pathOf(own)], tool.radius), body), allowed);
    return offsetFlat(taken, -CUT_MM).length === 0 ? [{ own, left }] : [];
  });
  const way = ways[0];
  if (way === undefined) return "the cutter would take wood beyond its ends";
  const path = pathOf(way.own);
  const channel =
    tool.channel === null ? [] : difference(sweep([path], tool.channel.width - tool.axis), body);
  return {
    track: way.own,
    left: leftOf(run, way.own, way.left),
    reach: sweep([path], Math.max(tool.radius, tool.cutter.diameter / 2)),
    channel,
  };
}

/** How much of the run's ends is left beside a track that stops short: along a bend, other than the track is shorter by. */
function leftOf(run: Path, track: Track, stops: readonly [number, number]): readonly [number, number] {
  const [from, to] = [nearest(run, track[0]!.from).s, nearest(run, track.at(-1)!.to).s];
  return [stops[0] === 0 ? 0 : from, stops[1] === 0 ? 0 : lengthOf(run) - to];
}

/** The ground beyond a run's ends, as far as a strip of this width about it reaches. */
function beyondEnds(run: Path, width: number): Region[] {
  const pieces = segments(run);
  return [[pieces[0]!, 0] as const, [pieces.at(-1)!, 1] as const].map(([piece, t]) => {
    const [at, ahead, out] = [along(piece, t), directionAt(piece, t), t === 0 ? -width : width];
    const corner = (u: number, v: number): Point => ({
      x: at.x + ahead.x * out * u - ahead.y * out * v,
      y: at.y + ahead.y * out * u + ahead.x * out * v,
    });
    return { outer: polygon([corner(0, -2), corner(2, -2), corner(2, 2), corner(0, 2)]), holes: [] };
  });
}

/** Full length first, then stopped short at one end, at both. */
const ENDS = [
  [0, 0],
  [0, 1],
  [1, 0],
  [1, 1],
] as const;

/** The stretch of the outline's parallel that lies beside the run, in the run's own direction. */
function parallelTo(outline: Loop, run: Path, by: number): Track | null {
  const [around, ...more] = offset([{ outer: outline, holes: [] }], by);
  if (around === undefined || more.length > 0) return null;
  const pieces = segments(run);
  const side = outwards(outline, pieces);
  const ends = [beside(pieces[0]!, 0, side * by), beside(pieces.at(-1)!, 1, side * by)] as const;
  const [start, end] = ends.map((p) => nearest(around.outer, p));
  if (start!.distance > OFF_MM || end!.distance > OFF_MM) return null;
  const loop = segments(around.outer);
  const length = trackLength(loop);
  // The outline runs counter-clockwise, so its outside is on the right; a run may go the other way.
  const [from, to] = side < 0 ? [start!.s, end!.s] : [end!.s, start!.s];
  const way = to > from ? to - from : to - from + length;
  const track = stretch(startedAt(loop, from), 0, way);
  return side < 0 ? track : turnedRound(track);
}

/** 1 where the outside lies to the left of the run, −1 to its right. */
function outwards(outline: Loop, pieces: readonly Segment[]): 1 | -1 {
  const longest = pieces.reduce((a, b) => (segmentSpan(b) > segmentSpan(a) ? b : a));
  return contains(outline, beside(longest, 0.5, LOOK_ASIDE_MM)) === "inside" ? -1 : 1;
}

const segmentSpan = (s: Segment): number => Math.hypot(s.to.x - s.from.x, s.to.y - s.from.y);

/** Whether the cutter's axis is everywhere as far from the edge as it should be. */
function followsAll(track: Track, run: Path, axis: number): boolean {
  const path = pathOf(track);
  const length = lengthOf(run);
  const looks = Math.max(8, Math.ceil(length / LOOK_MM));
  const fromRun = Array.from({ length: looks + 1 }, (_, i) =>
    distanceTo(path, pointAt(run, (length * i) / looks)),
  );
  const way = trackLength(track);
  const fromWay = Array.from({ length: looks + 1 }, (_, i) =>
    distanceTo(run, pointAlong(track, (way * i) / looks)),
  );
  return [...fromRun, ...fromWay].every((far) => Math.abs(far - axis) <= OFF_MM);
}

/** How far off its true distance the axis may be in a shallow hollow, mm. */
const OFF_MM: number = EDGE_MM / 2;
const LOOK_MM = 2;
const LOOK_ASIDE_MM = 0.05;

function beside(s: Segment, t: number, left: number): Point {
  const [p, ahead] = [along(s, t), directionAt(s, t)];
  return { x: p.x - ahead.y * left, y: p.y + ahead.x * left };
}
