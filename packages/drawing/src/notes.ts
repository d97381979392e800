import { cosine, meetsBox, sine } from "@dryfit/geometry";
import { textWidth } from "./lettering.ts";
import type { OnPaper } from "./outline.ts";

/** A few short lines that belong to a place on the drawing. */
export interface Note {
  readonly at: OnPaper;
  readonly lines: readonly string[];
  /** Other ways to set the same words, tried where the first does not find a clear spot. */
  readonly otherwise?: readonly (readonly string[])[];
  readonly size: number;
  /** Where the words would best stay: the part they name. */
  readonly home?: PaperBox;
  /** The first line is a name, written bold. */
  readonly named?: boolean;
  /** Written upwards, a quarter turn counter-clockwise. */
  readonly turned?: boolean;
}

/** Where a note's middle was put; `leader` where it stands away from its place. */
export interface PlacedNote extends Note {
  readonly middle: OnPaper;
  readonly leader: boolean;
}

export interface PaperBox {
  readonly min: OnPaper;
  readonly max: OnPaper;
}

export type Stroke = readonly [OnPaper, OnPaper];

/**
 * Finds a free spot for each note: on its place if the words cross no line there, else near by.
 * Never on another text; on lines only where nothing else is free. First come, first served.
 */
export function placeNotes(
  notes: readonly Note[],
  taken: readonly PaperBox[],
  strokes: readonly Stroke[],
  within: PaperBox,
): readonly PlacedNote[] {
  const boxes = [...taken];
  return notes.map((note) => {
    const { set, middle } = bestSpot(note, boxes, strokes, within);
    const box = boxOf(set, middle);
    boxes.push(box);
    return { ...set, middle, leader: !holds(box, note.at) && !isAtHome(set, middle, strokes) };
  });
}

/** A name needs no leader to its place where no line stands between them. */
function isAtHome({ at, named }: Note, middle: OnPaper, strokes: readonly Stroke[]): boolean {
  return named === true && !strokes.some((stroke) => isCrossed(stroke, [middle, at]));
}

function isCrossed([a, b]: Stroke, [c, d]: Stroke): boolean {
  const side = (p: OnPaper, q: OnPaper, r: OnPaper): number =>
    (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return side(a, b, c) > 0 !== side(a, b, d) > 0 && side(c, d, a) > 0 !== side(c, d, b) > 0;
}

/** The box that a note takes up, with a little air. */
export function boxOf(note: Pick<Note, "lines" | "size" | "named" | "turned">, middle: OnPaper): PaperBox {
  const widths = note.lines.map((line, i) => textWidth(line, note.size, note.named && i === 0));
  const [wide, tall] = [Math.max(...widths) * WIDER + AIR, note.lines.length * note.size * LINE_STEP + AIR];
  const [width, height] = note.turned ? [tall, wide] : [wide, tall];
  return {
    min: { x: middle.x - width / 2, y: middle.y - height / 2 },
    max: { x: middle.x + width / 2, y: middle.y + height / 2 },
  };
}

function boxesMeet(a: PaperBox, b: PaperBox): boolean {
  return a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y;
}

/** From line to line, in letter heights. */
export const LINE_STEP = 1.25;

/** Room left round a text, mm of paper. */
const AIR = 0.8;

/** Letters on a screen may run so much wider than those that are measured. */
const WIDER = 1.08;

/** What it costs to cross one line, in mm of distance that one would rather go. */
const CROSSING_COST = 12;

/** What it costs to leave home. */
const AWAY_COST = 20;

/** What it costs to set the words another way, in the same measure. */
const OTHERWISE_COST = 3;

const OVERLAP_COST = 1e4;

interface Spot {
  readonly set: Note;
  readonly middle: OnPaper;
  /** What the spot costs by its distance alone; what it meets can only make it dearer. */
  readonly least: number;
}

/** The cheapest spot, looked for from the least distance on, until no spot that is left can be cheaper. */
function bestSpot(
  note: Note,
  boxes: readonly PaperBox[],
  strokes: readonly Stroke[],
  within: PaperBox,
): Spot {
  const settings = [note.lines, ...(note.otherwise ?? [])].map((lines) => ({ ...note, lines }));
  const spots = settings
    .flatMap((set, i) => candidates(set, i * OTHERWISE_COST))
    .sort((a, b) => a.least - b.least);
  let best = { spot: spots[0]!, cost: Number.POSITIVE_INFINITY };
  for (const spot of spots) {
    if (spot.least >= best.cost) break;
    const cost = spot.least + penaltyOf(boxOf(spot.set, spot.middle), boxes, strokes, within);
    if (cost < best.cost) best = { spot, cost };
  }
  return best.spot;
}

function candidates(set: Note, dearer: number): readonly Spot[] {
  const { max, min } = boxOf(set, { x: 0, y: 0 });
  const reach = { x: (max.x - min.x) / 2, y: (max.y - min.y) / 2 };
  const rings = [1, 2, 3, 4, 5, 6, 8, 10].flatMap((ring) =>
    Array.from({ length: 16 }, (_, i) => {
      const angle = (i * Math.PI) / 8;
      return {
        x: set.at.x + cosine(angle) * (ring * 3 + reach.x),
        y: set.at.y + sine(angle) * (ring * 3 + reach.y),
      };
    }),
  );
  return [set.at, ...rings].map((middle) => {
    const box = boxOf(set, middle);
    const strays = set.home && !(holds(set.home, box.min) && holds(set.home, box.max)) ? AWAY_COST : 0;
    return { set, middle, least: Math.hypot(middle.x - set.at.x, middle.y - set.at.y) + strays + dearer };
  });
}

function penaltyOf(
  box: PaperBox,
  boxes: readonly PaperBox[],
  strokes: readonly Stroke[],
  within: PaperBox,
): number {
  const outside = holds(within, box.min) && holds(within, box.max) ? 0 : 1;
  const overlaps = boxes.filter((other) => boxesMeet(box, other)).length;
  const crossings = strokes.filter(([a, b]) => meetsBox(a, b, box)).length;
  return Math.min(crossings, 8) * CROSSING_COST + (overlaps + outside) * OVERLAP_COST;
}

function holds(box: PaperBox, p: OnPaper): boolean {
  return p.x >= box.min.x && p.x <= box.max.x && p.y >= box.min.y && p.y <= box.max.y;
}
