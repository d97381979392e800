import {
  CUT_MM,
  type Point,
  type Region,
  SAME_POINT_MM,
  type Segment,
  segmentLength,
  segments,
} from "@dryfit/geometry";
import type { Motion } from "../program/motion.ts";
import { boxAround, boxOfSegment, type Grid, gridOf, grown } from "./grid.ts";
import { insideRegion, outsideSwath, type Rim, type Stretch, type Swath } from "./rim.ts";
import { type FlatPiece, flatPieces, pieceOf, pointOn } from "./stroke.ts";

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
 * less is a ramp's wedge, which any width may take. Nothing is drawn in pixels or polygons: what earlier
 * strokes have passed over is cut off the rim exactly, circle by circle and line by line. Only between the places
 * looked at, a tenth of the cutter's radius apart, does it guess.
 */
export function engagementsOf(motions: readonly Motion[], bench: EngagementBench): readonly Engagement[] {
  const strokes = strokesOf(motions);
  const wood = bench.wood.map((region) => ({
    region,
    edges: [region.outer, ...region.holes].flatMap((loop) => segments(loop)),
  }));
  const grid = gridOf(strokes, ({ path }) => grown(boxOfSegment(path), bench.diameter / 2), CELL_MM);
  const found = new Map<number, Engagement>();
  for (const stroke of strokes) {
    const { angle, at } = widestAlong(stroke, { ...bench, wood }, grid);
    const known = found.get(stroke.index);
    if (known === undefined || angle > known.angle)
      found.set(stroke.index, { motion: stroke.index, line: stroke.motion.line, angle, at });
  }
  return [...found.values()];
}

function strokesOf(motions: readonly Motion[]): Stroke[] {
  const strokes: Stroke[] = [];
  let way = 0;
  motions.forEach((motion, index) => {
    if (motion.kind === "rapid") way += APART_MM;
    else
      for (const piece of flatPieces(motion)) {
        const length = segmentLength(piece.path);
        strokes.push({ ...piece, motion, index, order: strokes.length, length, way });
        way += length;
      }
  });
  return strokes;
}

/** Farther than any cutter's radius. */
const APART_MM = 1000;

/** Wood that stands no higher over the tip may be taken at any width, mm: what one turn of a ramp leaves. */
export const SKIM_MM = 1;

interface Cleared extends FlatPiece {
  readonly length: number;
  /** How far the cutter has come when the stroke begins, since the first. Between two that do not meet lies a long way. */
  readonly way: number;
}

interface Stroke extends Cleared {
  readonly motion: Motion;
  /** Which of the motions it is, and of all strokes. */
  readonly index: number;
  readonly order: number;
}

interface Around {
  readonly diameter: number;
  readonly top: number;
  readonly wood: readonly Wood[];
}

interface Wood {
  readonly region: Region<"machine">;
  readonly edges: readonly Segment<"machine">[];
}

interface Widest {
  readonly angle: number;
  readonly at: Point<"machine">;
}

/** Looks every tenth of a radius and at both ends, then closer about the widest place. */
function widestAlong(stroke: Stroke, around: Around, grid: Grid<Stroke>): Widest {
  const { path, length } = stroke;
  const reach = around.diameter / 2;
  const count = Math.max(1, Math.ceil(length / (LOOK * reach)));
  const perChunk = Math.ceil(1 / LOOK);
  let before: readonly Stroke[] = [];
  let beside = -1;
  const at = (t: number): number => {
    const chunk = Math.min(Math.floor((t * count) / perChunk), Math.floor(count / perChunk));
    if (chunk !== beside) {
      const middle = pointOn(path, Math.min(1, ((chunk + 0.5) * perChunk) / count));
      before = grid.near(boxAround(middle, 1.6 * reach)).filter(({ order }) => order < stroke.order);
      beside = chunk;
    }
    return engaged(stroke, t, before, around);
  };
  let best = { t: 0, angle: at(0) };
  const offer = (t: number): void => {
    const angle = at(t);
    if (angle > best.angle) best = { t, angle };
  };
  for (let i = 1; i <= count; i++) offer(i / count);
  if (best.angle > 0)
    for (let step = 0.5 / count; step > CLOSE / count; step /= 2)
      for (const t of [best.t - step, best.t + step]) if (t > 0 && t < 1) offer(t);
  return { angle: best.angle, at: pointOn(path, best.t) };
}

/** The angle of the rim that is in wood and moves ahead, when the cutter is a share `t` along the stroke. */
function engaged(stroke: Stroke, t: number, before: readonly Stroke[], around: Around): number {
  const { path, z } = stroke;
  const tip = z[0] + (z[1] - z[0]) * t;
  const level = tip + SKIM_MM;
  if (level >= around.top) return 0;
  const radius = around.diameter / 2;
  const plunge = stroke.length === 0;
  const rim: Rim = { at: pointOn(path, t), ahead: aheadAt(path, t), radius };
  const way = stroke.way + stroke.length * t;
  const own = {
    path: pieceOf(path, 0, t),
    z: [z[0], tip],
    way: stroke.way,
    length: stroke.length * t,
  } as const;
  let left: readonly Stretch[] = [plunge ? [-Math.PI, Math.PI] : [-Math.PI / 2, Math.PI / 2]];
  for (const cut of plunge ? before : [own, ...before])
    for (const swath of swathsOf(cut, level, way - radius, radius)) {
      if (left.length === 0) return 0;
      left = outsideSwath(rim, left, swath);
    }
  return around.wood
    .flatMap(({ region, edges }) => insideRegion(rim, left, region, edges))
    .reduce((sum, [from, to]) => sum + to - from, 0);
}

/**
 * What a stroke has cleared at a level. A sliver beside it that is thinner than a proof lets stand is no wood:
 * rounding leaves such. But what was cut since the way `since` is taken to the letter: there the rim moves on.
 */
function swathsOf(cut: Cleared, level: number, since: number, radius: number): readonly Swath[] {
  const path = below(cut.path, cut.z, level);
  if (path === null) return [];
  const wide = { path, radius: radius + CUT_MM };
  if (cut.way + cut.length <= since) return [wide];
  const exact = { path, radius: radius - SAME_POINT_MM };
  if (cut.way >= since || path !== cut.path) return [exact];
  return [exact, { ...wide, path: pieceOf(path, 0, (since - cut.way) / cut.length) }];
}

/** The part of a stroke whose tip is at a level or below it. */
function below(
  path: Segment<"machine">,
  [start, end]: FlatPiece["z"],
  level: number,
): Segment<"machine"> | null {
  if (start <= level && end <= level) return path;
  if (start > level && end > level) return null;
  const crossing = (start - level) / (start - end);
  return start > level ? pieceOf(path, crossing, 1) : pieceOf(path, 0, crossing);
}

function aheadAt(path: Segment, t: number): number {
  if (path.kind === "line") return Math.atan2(path.to.y - path.from.y, path.to.x - path.from.x);
  const { centre, from, sweep } = path;
  return Math.atan2(from.y - centre.y, from.x - centre.x) + sweep * t + (Math.sign(sweep) * Math.PI) / 2;
}

/** How far apart it looks at first, in cutter radii; and how close it looks about the widest place, in those steps. */
const LOOK = 0.1;
const CLOSE = 1 / 40;

/** About a cutter's width, mm. */
const CELL_MM = 5;
