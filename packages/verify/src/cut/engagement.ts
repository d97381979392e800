import {
  arctangent,
  CHIP_MM,
  contains,
  type Point,
  PRINTED_ARC_MM,
  type Region,
  SAME_POINT_MM,
  type Segment,
  segmentLength,
  segments,
} from "@dryfit/geometry";
import type { Motion } from "../program/motion.ts";
import { boxAround, boxOfSegment, type Grid, gridOf, grown } from "./grid.ts";
import { besideEdges, outsideTraces, type Rim, type Stretch } from "./rim.ts";
import { type FlatPiece, flatPieces, pieceOf, pointOn } from "./stroke.ts";
import { type Trace, traceGap, traceOf } from "./trace.ts";

/** How much of the cutter's rim cuts at once, where along one feed motion it is most. */
export interface Engagement {
  /** Which of the motions it is, from 0. */
  readonly motion: number;
  readonly line: number;
  /** Radians: half a turn in a full slot; a whole turn where it goes straight down into wood. */
  readonly angle: number;
  readonly at: Point<"machine">;
}

export interface EngagementBench {
  readonly diameter: number;
  /** The wood as it lies before the first motion, seen from above. */
  readonly wood: readonly Region<"machine">[];
  /** Its upper face, in the program's own zero. */
  readonly top: number;
}

/**
 * The widest engagement of every feed motion, worked out from the wood that the motions before it have left.
 *
 * A point of the rim cuts where it moves ahead into wood. Wood counts that stands at least `SKIM_MM` over the tip:
 * less is a ramp's wedge, which any width may take. Nor does a layer count that is thinner than a chip all over.
 * Nothing is drawn in pixels or polygons: what earlier strokes have passed over is cut off the rim exactly, circle
 * by circle and line by line. Only between the places looked at, a seventh of the cutter's radius apart, does it guess.
 */
export function engagementsOf(motions: readonly Motion[], bench: EngagementBench): readonly Engagement[] {
  const strokes = strokesOf(motions, () => bench.diameter);
  const rim = rimAmong(strokes, bench);
  const found = new Map<number, Engagement>();
  for (const stroke of strokes) {
    const { angle, at } = rim.widestAlong(stroke, true);
    const known = found.get(stroke.index);
    if (known === undefined || angle > known.angle)
      found.set(stroke.index, { motion: stroke.index, line: stroke.motion.line, angle, at });
  }
  return [...found.values()];
}

/** Motions of one or more cutters in order, and those of them that are asked about. */
export interface MotionsAsked {
  readonly motions: readonly Motion[];
  /** Of the cutter that makes a motion, mm; null where it takes no upright wall. */
  readonly diameterOf: (motion: Motion) => number | null;
  readonly isAsked: (index: number) => boolean;
}

/**
 * The widest of all engagements asked about; null where none of the motions feeds. It looks at every motion here and
 * there, and as `engagementsOf` does only at those that engage most. Motions may be left out where nothing is near.
 */
export function highestEngagement(
  { motions, diameterOf, isAsked }: MotionsAsked,
  bench: Omit<EngagementBench, "diameter">,
): Engagement | null {
  const strokes = strokesOf(motions, diameterOf);
  const rim = rimAmong(strokes, bench);
  const looks = strokes
    .filter(({ index }) => isAsked(index))
    .map((stroke) => ({ stroke, ...rim.widestAlong(stroke, false) }))
    .sort((a, b) => b.angle - a.angle || a.stroke.order - b.stroke.order);
  let best: Engagement | null = null;
  for (const { stroke } of looks.slice(0, CLOSELY)) {
    const { angle, at } = rim.widestAlong(stroke, true);
    if (best === null || angle > best.angle)
      best = { motion: stroke.index, line: stroke.motion.line, angle, at };
  }
  return best;
}

/** So many motions are looked at closely. */
const CLOSELY = 40;

function rimAmong(strokes: readonly Stroke[], bench: Omit<EngagementBench, "diameter">) {
  const wood = bench.wood.map((region): Wood => {
    const edges = [region.outer, ...region.holes].flatMap((loop) => segments(loop));
    return { region, edges: edges.map(traceOf) };
  });
  const grid = gridOf(strokes, ({ path, radius }) => grown(boxOfSegment(path), radius), CELL_MM);
  return {
    widestAlong: (stroke: Stroke, closely: boolean): Widest =>
      widestAlong(stroke, { top: bench.top, wood }, grid, closely),
  };
}

/** Wood that stands no higher over the tip may be taken at any width, mm: what one turn of a ramp leaves. */
const SKIM_MM = 1;

/** Every stretch of a motion that cuts, in order. */
interface Stroke extends FlatPiece {
  readonly motion: Motion;
  /** Which of the motions it is, and of all strokes. */
  readonly index: number;
  readonly order: number;
  readonly trace: Trace;
  readonly length: number;
  /** Of the cutter. */
  readonly radius: number;
  /** How far the cutter has come when the stroke begins. Between two that do not meet lies a long way. */
  readonly way: number;
}

function strokesOf(motions: readonly Motion[], diameterOf: MotionsAsked["diameterOf"]): Stroke[] {
  const strokes: Stroke[] = [];
  let way = 0;
  motions.forEach((motion, index) => {
    const diameter = motion.kind === "rapid" ? null : diameterOf(motion);
    if (diameter === null || !follows(motions[index - 1], motion)) way += APART_MM;
    if (diameter !== null)
      for (const piece of flatPieces(motion)) {
        const length = segmentLength(piece.path);
        strokes.push({
          ...piece,
          motion,
          index,
          order: strokes.length,
          trace: traceOf(piece.path),
          length,
          radius: diameter / 2,
          way,
        });
        way += length;
      }
  });
  return strokes;
}

function follows(before: Motion | undefined, { from }: Motion): boolean {
  return before !== undefined && before.to.x === from.x && before.to.y === from.y;
}

/** Farther than any cutter's radius. */
const APART_MM = 1000;

interface Around {
  readonly top: number;
  readonly wood: readonly Wood[];
}

interface Wood {
  readonly region: Region<"machine">;
  readonly edges: readonly Trace[];
}

interface Widest {
  readonly angle: number;
  readonly at: Point<"machine">;
}

/** Looks every seventh of a radius and at both ends; then, where asked, closer about the widest place. */
function widestAlong(stroke: Stroke, around: Around, grid: Grid<Stroke>, closely: boolean): Widest {
  const { path, z, length, radius } = stroke;
  const look = closely ? LOOK : 3 * LOOK;
  const count = Math.max(1, Math.ceil(length / (look * radius)));
  const perChunk = Math.ceil(1 / look);
  let chunk = -1;
  let near: readonly Stroke[] = [];
  let gone: readonly Cleared[] = [];
  const at = (t: number): number => {
    const level = z[0] + (z[1] - z[0]) * t + SKIM_MM;
    if (level >= around.top) return 0;
    const own = Math.floor((t * count) / perChunk);
    if (own !== chunk) {
      chunk = own;
      const middle = pointOn(path, Math.min(1, ((chunk + 0.5) * perChunk) / count));
      near = grid
        .near(boxAround(middle, 1.6 * radius))
        .filter(
          ({ order, trace, radius: other }) =>
            order < stroke.order && traceGap(trace, middle) < 1.6 * radius + other + CHIP_MM,
        )
        .reverse();
      gone = clearedAt(level, near);
    }
    return engaged(stroke, t, z[0] === z[1] ? gone : clearedAt(level, near), around);
  };
  let best = { t: 0, angle: at(0) };
  const offer = (t: number): void => {
    const angle = at(t);
    if (angle > best.angle) best = { t, angle };
  };
  for (let i = 1; i <= count; i++) offer(i / count);
  if (closely && best.angle > 0)
    for (let step = length / count / 2; step > CLOSE_MM; step /= 2)
      for (const t of [best.t - step / length, best.t + step / length]) if (t > 0 && t < 1) offer(t);
  return { angle: best.angle, at: pointOn(path, best.t) };
}

/** Where strokes of one cutter have been at a level or below it, the latest first, and how far it had come after each. */
interface Cleared {
  readonly radius: number;
  readonly traces: Trace[];
  readonly until: number[];
}

function clearedAt(level: number, strokes: readonly Stroke[]): readonly Cleared[] {
  const cleared: Cleared[] = [];
  for (const stroke of strokes) {
    const trace = below(stroke, level);
    if (trace === null) continue;
    let own = cleared.find(({ radius }) => radius === stroke.radius);
    if (own === undefined) {
      own = { radius: stroke.radius, traces: [], until: [] };
      cleared.push(own);
    }
    own.traces.push(trace);
    own.until.push(stroke.way + stroke.length);
  }
  return cleared;
}

/** The angle of the rim that is in wood and moves ahead, when the cutter is a share `t` along the stroke. */
function engaged(stroke: Stroke, t: number, gone: readonly Cleared[], { wood }: Around): number {
  const { path, length, radius } = stroke;
  const rim: Rim = { at: pointOn(path, t), ahead: aheadAt(path, t), radius };
  const own: readonly Stretch[] =
    length === 0
      ? [[-Math.PI, Math.PI]]
      : outsideTraces(rim, [AHEAD], [traceOf(pieceOf(path, 0, t))], radius - SAME_POINT_MM);
  const free = gone.reduce(
    (left, { traces, radius: other }) => outsideTraces(rim, left, traces, other + PRINTED_ARC_MM),
    own,
  );
  if (free.length === 0) return 0;
  const inWood = wood.flatMap(({ region, edges }) =>
    besideEdges(rim, free, edges, ({ x, y }) => contains(region, { x, y }) === "inside"),
  );
  // What was cut on the very last way ends where the rim is now: to widen that would hide all there is ahead.
  const since = stroke.way + length * t - LAST_WAY_MM;
  const old = gone.map(({ traces, until, radius: other }) => {
    const first = until.findIndex((way) => way <= since);
    return { traces: first < 0 ? [] : first === 0 ? traces : traces.slice(first), reach: other + CHIP_MM };
  });
  return inWood
    .filter(
      (stretch) =>
        old.reduce<readonly Stretch[]>(
          (left, { traces, reach }) => outsideTraces(rim, left, traces, reach),
          [stretch],
        ).length > 0,
    )
    .reduce((sum, [from, to]) => sum + to - from, 0);
}

/** The half of the rim that moves ahead. */
const AHEAD: Stretch = [-Math.PI / 2, Math.PI / 2];

/** Far more than a chip, and less than from one stroke to the next beside it. */
const LAST_WAY_MM = 0.5;

/** The part of a stroke whose tip is at a level or below it. */
function below({ path, z: [start, end], trace }: Stroke, level: number): Trace | null {
  if (start <= level && end <= level) return trace;
  if (start > level && end > level) return null;
  const crossing = (start - level) / (start - end);
  return traceOf(start > level ? pieceOf(path, crossing, 1) : pieceOf(path, 0, crossing));
}

function aheadAt(path: Segment, t: number): number {
  if (path.kind === "line") return arctangent(path.to.y - path.from.y, path.to.x - path.from.x);
  const { centre, from, sweep } = path;
  return arctangent(from.y - centre.y, from.x - centre.x) + sweep * t + (Math.sign(sweep) * Math.PI) / 2;
}

/** How far apart it looks at first, in cutter radii; and how close about the widest place, mm. */
const LOOK = 0.15;
const CLOSE_MM = 0.02;

/** About a cutter's width, mm. */
const CELL_MM = 5;
