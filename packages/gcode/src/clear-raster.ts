import {
  arctangent,
  nearest,
  type Point,
  pathOf,
  type Region,
  type Segment,
  segments,
} from "@dryfit/geometry";
import { OVERLAP_MM, type Ring, type Rooms, straightWithin, tracksOf } from "./clear.ts";
import { startedAt, stretch, type Track, trackLength, turnedRound } from "./plan-track.ts";

/**
 * Raster clearing of one room: lines to and fro `along` a direction, then round the walls. No ridge is left: a place
 * farther from every wall than the cutter's radius lies between two lines that are less than the radius apart.
 */
export function rasterRing(
  within: Region,
  along: Point,
  { stepover, radius, way }: { readonly stepover: number; readonly radius: number } & Pick<Rooms, "way">,
): Ring {
  const step = Math.min(stepover, radius - OVERLAP_MM);
  return { within, tracks: tracksOf(within, way), children: [], hatch: hatchOf(within, along, step) };
}

/** The direction of the longer side of the least upright box, where the grain says nothing. */
export function longWay({ outer }: Region): Point {
  const xs = outer.vertices.map(({ x }) => x);
  const ys = outer.vertices.map(({ y }) => y);
  const wide = Math.max(...xs) - Math.min(...xs) >= Math.max(...ys) - Math.min(...ys);
  return wide ? { x: 1, y: 0 } : { x: 0, y: 1 };
}

/** A stretch of one line that lies within, from `from` to `to` along it. */
interface Rung {
  readonly from: number;
  readonly to: number;
  readonly across: number;
}

function hatchOf(within: Region, along: Point, step: number): Track[] {
  const edges = [within.outer, ...within.holes].flatMap((loop) => segments(loop));
  const reach = edges.flatMap((edge) => reachAcross(edge, along));
  const [low, high] = [Math.min(...reach), Math.max(...reach)];
  const lines = Math.max(0, Math.ceil((high - low) / step - 1e-9) - 1);
  const runs: Rung[][] = [];
  let open: Rung[][] = [];
  for (let k = 1; k <= lines; k++) {
    const rungs = rungsAt(edges, along, low + ((high - low) * k) / (lines + 1));
    const lasts = open.map((run) => run.at(-1)!);
    open = rungs.map((rung) => {
      const before = lasts.filter((last) => overlap(last, rung));
      const alone = before.length === 1 && rungs.filter((other) => overlap(before[0]!, other)).length === 1;
      const run = alone ? open[lasts.indexOf(before[0]!)]! : [];
      if (!alone) runs.push(run);
      run.push(rung);
      return run;
    });
  }
  return runs.flatMap((run) => toAndFro(run, along, within));
}

function toAndFro(run: readonly Rung[], along: Point, within: Region): Track[] {
  const loops = [within.outer, ...within.holes].map((loop) => segments(loop));
  const tracks: Segment[][] = [];
  run.forEach(({ from, to, across }, i) => {
    const ends = i % 2 === 0 ? [from, to] : [to, from];
    const [start, end] = ends.map((way) => ({
      x: along.x * way - along.y * across,
      y: along.y * way + along.x * across,
    })) as [Point, Point];
    const line: Segment = { kind: "line", from: start, to: end };
    const last = tracks.at(-1);
    const link = last === undefined ? null : linkBetween(last.at(-1)!.to, start, within, loops);
    if (last === undefined || link === null) tracks.push([line]);
    else last.push(...link, line);
  });
  return tracks;
}

/** From the end of one line to the start of the next: straight, or along the wall on which both lie. */
function linkBetween(from: Point, to: Point, within: Region, loops: readonly Track[]): Track | null {
  if (straightWithin(within, from, to)) return [{ kind: "line", from, to }];
  for (const loop of loops) {
    const path = pathOf(loop);
    const [a, b] = [nearest(path, from), nearest(path, to)];
    if (a.distance > ON_WALL_MM || b.distance > ON_WALL_MM) continue;
    const round = trackLength(loop);
    const ahead = (b.s - a.s + round) % round;
    return ahead <= round / 2
      ? stretch(startedAt(loop, a.s), 0, ahead)
      : turnedRound(stretch(startedAt(loop, b.s), 0, round - ahead));
  }
  return null;
}

const ON_WALL_MM = 1e-4;

const overlap = (a: Rung, b: Rung): boolean => a.from < b.to && b.from < a.to;

function rungsAt(edges: readonly Segment[], along: Point, across: number): Rung[] {
  const ways = edges.flatMap((edge) => crossingsOf(edge, along, across)).sort((a, b) => a - b);
  return Array.from({ length: Math.floor(ways.length / 2) }, (_, i) => ({
    from: ways[2 * i]!,
    to: ways[2 * i + 1]!,
    across,
  })).filter(({ from, to }) => to - from > LEAST_RUNG_MM);
}

/** A shorter line is left to the wall's pass, mm. */
const LEAST_RUNG_MM = 0.01;

/** Where a line crosses an edge, as ways along it; an end that touches counts for one neighbour only. */
function crossingsOf(edge: Segment, along: Point, across: number): number[] {
  const up = (p: Point): number => along.x * p.y - along.y * p.x - across;
  const wayOf = (p: Point): number => along.x * p.x + along.y * p.y;
  const [a, b] = [up(edge.from), up(edge.to)];
  if (edge.kind === "line") {
    if (a > 0 === b > 0) return [];
    return [wayOf(edge.from) + ((wayOf(edge.to) - wayOf(edge.from)) * a) / (a - b)];
  }
  const { centre, radius, sweep } = edge;
  const off = up(centre);
  if (Math.abs(off) >= radius) return [];
  const half = Math.sqrt(radius * radius - off * off);
  const start = arctangent(a - off, wayOf(edge.from) - wayOf(centre));
  return [-1, 1].flatMap((side) => {
    const turn = (arctangent(-off, side * half) - start) * Math.sign(sweep);
    const ahead = turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI));
    return ahead < Math.abs(sweep) ? [wayOf(centre) + side * half] : [];
  });
}

/** How far an edge reaches across. */
function reachAcross(edge: Segment, along: Point): number[] {
  const up = (p: Point): number => along.x * p.y - along.y * p.x;
  const ends = [up(edge.from), up(edge.to)];
  if (edge.kind === "line") return ends;
  const quarter = Math.PI / 2;
  const start = arctangent(
    ends[0]! - up(edge.centre),
    along.x * (edge.from.x - edge.centre.x) + along.y * (edge.from.y - edge.centre.y),
  );
  const tops = [quarter, -quarter].filter((angle) => {
    const turn = (angle - start) * Math.sign(edge.sweep);
    return turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI)) < Math.abs(edge.sweep);
  });
  return [...ends, ...tops.map((angle) => up(edge.centre) + Math.sign(angle) * edge.radius)];
}
