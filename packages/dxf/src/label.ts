import {
  type Box,
  boundsOf,
  circle,
  contains,
  flatten,
  type Loop,
  meetsBox,
  type Point,
} from "@dryfit/geometry";
import { readLayerName } from "./layer.ts";
import type { Mark } from "./marks.ts";

/** Where a part's label stands, how tall its letters are (mm), and whether it is turned a quarter. */
export interface LabelSpot {
  readonly at: Point;
  readonly height: number;
  readonly turned: boolean;
}

/**
 * The spot for the largest letters that cross no line of the part: on bare wood if there is room,
 * else inside a recess. Among equal spots the one nearest the part's middle, written across rather than up.
 */
export function labelSpot(marks: readonly Mark[], text: string): LabelSpot {
  const shape = shapeOf(marks);
  for (const allowRecess of [false, true]) {
    for (const height of LETTER_HEIGHTS) {
      const spot = spotOf(shape, text, height, allowRecess);
      if (spot) return spot;
    }
  }
  return { at: middle(shape.bounds), height: LETTER_HEIGHTS.at(-1)!, turned: false };
}

/** Letter heights to try, mm. */
const LETTER_HEIGHTS = [14, 12, 10, 8, 6, 5, 4, 3] as const;

/** The widest letter of a plotter's plain font is about as wide as it is tall, with its gap. */
const WIDTH_PER_HEIGHT = 0.95;

/** Spots tried along each side of the part's bounding box. */
const TRIES = 25;

/** Lines are looked at as chords: coarse is enough to keep letters off them. mm. */
const CHORD_MM = 0.1;

interface Shape {
  readonly bounds: Box;
  readonly outline: Loop;
  readonly openings: readonly Loop[];
  readonly recesses: readonly Loop[];
  readonly chords: readonly (readonly [Point, Point])[];
}

function shapeOf(marks: readonly Mark[]): Shape {
  const loops = marks.flatMap((mark) => (mark.kind === "text" ? [] : [{ mark, loop: loopOf(mark) }]));
  const of = (kind: "outside" | "inside" | "recess" | "bore") =>
    loops.filter(({ mark }) => readLayerName(mark.layer)?.kind === kind).map(({ loop }) => loop);
  const outline = of("outside")[0];
  if (!outline) throw new RangeError("a part without an outline cannot be labelled");
  return {
    bounds: boundsOf(outline),
    outline,
    openings: [...of("inside"), ...of("bore")],
    recesses: of("recess"),
    chords: loops.flatMap(({ loop }) => chordsOf(loop)),
  };
}

function loopOf(mark: Exclude<Mark, { kind: "text" }>): Loop {
  return mark.kind === "loop" ? mark.loop : circle(mark.centre, mark.radius);
}

function chordsOf(loop: Loop): (readonly [Point, Point])[] {
  const points = flatten(loop, CHORD_MM);
  return points.map((p, i) => [p, points[(i + 1) % points.length]!] as const);
}

function spotOf(shape: Shape, text: string, height: number, allowRecess: boolean): LabelSpot | null {
  const across = text.length * height * WIDTH_PER_HEIGHT;
  const up = height * 2;
  for (const turned of [false, true]) {
    const [width, tall] = turned ? [up, across] : [across, up];
    const at = nearestFree(shape, width, tall, allowRecess);
    if (at) return { at, height, turned };
  }
  return null;
}

/** The free centre nearest the middle of the part at which a box of this size stays within its bounds. */
function nearestFree(shape: Shape, width: number, tall: number, allowRecess: boolean): Point | null {
  const { min, max } = shape.bounds;
  const centre = middle(shape.bounds);
  let best: { at: Point; away: number } | null = null;
  for (const x of steps(min.x + width / 2, max.x - width / 2)) {
    for (const y of steps(min.y + tall / 2, max.y - tall / 2)) {
      const away = (x - centre.x) ** 2 + (y - centre.y) ** 2;
      if (best && away >= best.away) continue;
      if (isFree(shape, { x, y }, width, tall, allowRecess)) best = { at: { x, y }, away };
    }
  }
  return best?.at ?? null;
}

function steps(from: number, to: number): readonly number[] {
  if (to < from) return [];
  return Array.from({ length: TRIES }, (_, i) => from + ((to - from) * i) / (TRIES - 1));
}

function isFree(shape: Shape, at: Point, width: number, tall: number, allowRecess: boolean): boolean {
  const box = {
    min: { x: at.x - width / 2, y: at.y - tall / 2 },
    max: { x: at.x + width / 2, y: at.y + tall / 2 },
  };
  if (shape.chords.some(([a, b]) => meetsBox(a, b, box))) return false;
  if (contains(shape.outline, at) !== "inside") return false;
  if (shape.openings.some((loop) => contains(loop, at) !== "outside")) return false;
  return allowRecess || depthAt(shape.recesses, at) === 0;
}

/** Odd where a point lies in a recess: a loop inside a loop is an island. */
function depthAt(loops: readonly Loop[], at: Point): 0 | 1 {
  return (loops.filter((loop) => contains(loop, at) !== "outside").length % 2) as 0 | 1;
}

function middle(box: Box): Point {
  return { x: (box.min.x + box.max.x) / 2, y: (box.min.y + box.max.y) / 2 };
}
