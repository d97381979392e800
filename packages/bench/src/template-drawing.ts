import { line, type PdfMark, type PdfStroke, type TiledDrawing, wrapped } from "@dryfit/drawing";
import {
  type Box,
  boundsOf,
  circle,
  contains,
  type Loop,
  lengthOf,
  pointAt,
  rectangle,
  tangentAt,
} from "@dryfit/geometry";
import { guideWords } from "./choose.ts";
import type { Template, TemplateUse } from "./template.ts";

/** A template as it is printed 1:1, with all that one must know who holds it. */
export function templateDrawing(template: Template, name: string, revision: string): TiledDrawing {
  const loops = loopsOf(template);
  const frame: Box = template.board ?? boundsOf(loops);
  return {
    title: `${name}: ${template.id}`,
    facts: factsOf(template),
    frame,
    revision,
    marks: [
      { kind: "stroke", curves: loops, style: GUIDING },
      ...(template.kind === "inside" ? loops.flatMap(inwardTicks) : []),
      ...finishedMarks(template),
      ...boardMarks(template, frame),
      ...template.drills.flatMap(({ at, diameter }) => drillMarks(at, diameter)),
      ...template.letters.map(
        ({ at: [x, y], text }): PdfMark => ({
          kind: "text",
          text,
          at: { x, y },
          size: 4,
          anchor: "middle",
          bold: true,
        }),
      ),
      ...words(template, frame),
    ],
  };
}

/** Which part and face, which tools, how: on every sheet and on the template itself. */
function factsOf({ uses, fit, depth, through, kind, air }: Template): readonly string[] {
  const on = (use: TemplateUse): string => `${use.part}${use.mirrored ? " TURNED OVER" : ""}`;
  const [first] = uses;
  return [
    `${uses.map(on).join(", ")}: face ${first!.face} (${first!.faceWords}) up`,
    `Cutter ${fit.cutter.id}, ${round(fit.cutter.diameter)} mm; ${guideWords(fit.guide)}`,
    `${kind === "inside" ? "Router inside the hole" : "Router round the outside"}; edge to cut ${round(fit.offset + air)} mm; ${through ? "through" : `${round(depth)} mm deep`}`,
  ];
}

/** The edges that guide are cut out: the heaviest line. */
const GUIDING: PdfStroke = { width: 0.5 };
const FINISHED: PdfStroke = { width: 0.25, dash: [3, 1.5] };
const BOARD: PdfStroke = { width: 0.35 };
const CENTRE: PdfStroke = { width: 0.18, dash: [8, 1.5, 1, 1.5] };
const THIN: PdfStroke = { width: 0.18 };

function loopsOf({ contours }: Template): readonly Loop[] {
  return contours.flatMap(({ outer, holes }) => [outer, ...holes]);
}

/** Short ticks into what is cut away, every 12 mm: an opening, told without colour. */
function inwardTicks(loop: Loop): readonly PdfMark[] {
  const length = lengthOf(loop);
  return Array.from({ length: Math.floor(length / 12) }, (_, i) => {
    const at = pointAt(loop, 12 * i + 6);
    const along = tangentAt(loop, 12 * i + 6);
    return line(at.x, at.y, at.x - 1.5 * along.y, at.y + 1.5 * along.x, THIN);
  });
}

/** Where the cut will be, unless it is the template's own edge. */
function finishedMarks({ fit, air, finished }: Template): readonly PdfMark[] {
  if (fit.offset + air === 0) return [];
  return [
    { kind: "stroke", curves: finished.flatMap(({ outer, holes }) => [outer, ...holes]), style: FINISHED },
  ];
}

function boardMarks({ board, blank }: Template, frame: Box): readonly PdfMark[] {
  if (!board) return [];
  const edge: PdfMark = { kind: "stroke", curves: [rectangle(board.min, board.max)], style: BOARD };
  if (!blank)
    return [edge, line(frame.min.x, 0, frame.max.x, 0, CENTRE), line(0, frame.min.y, 0, frame.max.y, CENTRE)];
  return [
    edge,
    { kind: "stroke", curves: [rectangle(blank.min, blank.max)], style: CENTRE },
    text("blank's bottom edge: batten under this line", blank.min.x + 12, blank.min.y - 4),
    {
      kind: "text",
      text: "blank's left edge: batten under this line",
      at: { x: blank.min.x - 1.5, y: blank.min.y + 12 },
      size: 3,
      angle: Math.PI / 2,
    },
  ];
}

function drillMarks([x, y]: readonly [number, number], diameter: number): readonly PdfMark[] {
  const reach = diameter / 2 + 2;
  return [
    { kind: "stroke", curves: [circle({ x, y }, diameter / 2)], style: THIN },
    line(x - reach, y, x + reach, y, THIN),
    line(x, y - reach, x, y + reach, THIN),
    text(`drill ${round(diameter)}`, x + reach, y + 0.8, 2.4),
  ];
}

/** Part, face, bush and cutter, written where they stay on the template. */
function words(template: Template, frame: Box): readonly PdfMark[] {
  const { board, blank } = template;
  // Beside centre lines only a quarter of the board is free.
  const room = board && !blank ? (board.max.x - board.min.x) / 2 - 8 : WORDS_WIDTH;
  const lines = factsOf(template).flatMap((fact) => wrapped(fact, room, WORD_SIZE));
  const at = board
    ? { x: frame.min.x + 5, y: frame.min.y + 6 + WORD_STEP * lines.length }
    : spotFor(template, frame);
  return [
    { kind: "text", text: template.id, at, size: 4, bold: true },
    ...lines.map(
      (text, i): PdfMark => ({
        kind: "text",
        text,
        at: { x: at.x, y: at.y - WORD_STEP * (i + 1) },
        size: WORD_SIZE,
      }),
    ),
  ];
}

const WORD_SIZE = 2.8;
const WORD_STEP = 4;

/** On an outline's own wood: the place nearest its middle at which the words' corners all lie inside. */
function spotFor(template: Template, frame: Box): { readonly x: number; readonly y: number } {
  const [outline] = template.contours;
  const [width, below, above] = [WORDS_WIDTH, 3 * WORD_STEP + 1, 4];
  const middle = { x: (frame.min.x + frame.max.x - width) / 2, y: (frame.min.y + frame.max.y) / 2 };
  const steps = Array.from({ length: 21 }, (_, i) => (i - 10) / 10);
  const places = steps
    .flatMap((u) =>
      steps.map((v) => ({
        x: middle.x + (u * (frame.max.x - frame.min.x)) / 2,
        y: middle.y + (v * (frame.max.y - frame.min.y)) / 2,
      })),
    )
    .sort((a, b) => Math.hypot(a.x - middle.x, a.y - middle.y) - Math.hypot(b.x - middle.x, b.y - middle.y));
  const free = places.find(({ x, y }) =>
    [0, 0.5, 1].every((share) =>
      [y - below, y, y + above].every(
        (height) => contains(outline!, { x: x + share * width, y: height }) === "inside",
      ),
    ),
  );
  return free ?? middle;
}

/** How wide the longest of the words is, about, mm. */
const WORDS_WIDTH = 80;

function text(words: string, x: number, y: number, size = 3): PdfMark {
  return { kind: "text", text: words, at: { x, y }, size };
}

function round(value: number): number {
  return Number(value.toFixed(2));
}
