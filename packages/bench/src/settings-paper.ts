import {
  line,
  MARGIN,
  type PaperName,
  type PdfMark,
  type PdfPage,
  papers,
  textWidth,
  wrapped,
} from "@dryfit/drawing";
import { type Finding, formatLength, type Units } from "@dryfit/joinery";
import type { Step, StepFigure } from "./step.ts";

export interface SettingsPaper {
  readonly name: string;
  readonly revision: string;
  readonly units: Units;
  readonly paper: PaperName;
  readonly steps: readonly Step[];
  readonly findings: readonly Finding[];
}

/** The setting list: every step in order, its figures large enough to read from the bench. */
export function settingsPages(paper: SettingsPaper): readonly PdfPage[] {
  const [width, height] = papers[paper.paper];
  const room = width - 2 * SIDE;
  const blocks: readonly Block[] = [
    cautions(room),
    ...(paper.findings.length > 0 ? [told(paper.findings, room)] : []),
    ...paper.steps.map((step, i) => stepBlock(step, i + 1, room, paper.units)),
  ];
  const sheets = flowed(blocks, height - 2 * MARGIN - HEAD - FOOT);
  return sheets.map((rows, i) => {
    const marks: PdfMark[] = [...head(paper, width, height), ...foot(width, i + 1, sheets.length)];
    let y = height - MARGIN - HEAD;
    for (const row of rows) {
      y -= row.tall;
      marks.push(...row.at(y));
    }
    return { size: [width, height], marks };
  });
}

/** A line of a page: how tall it is, and what is drawn with its foot at `y`. mm. */
interface Row {
  readonly tall: number;
  readonly at: (y: number) => readonly PdfMark[];
}

/** Rows that should stay on one page. */
type Block = readonly Row[];

const SIDE = 15;
const HEAD = 16;
const FOOT = 8;

/** Blocks on pages; one longer than a page is broken. */
function flowed(blocks: readonly Block[], tall: number): readonly (readonly Row[])[] {
  const pages: Row[][] = [[]];
  let left = tall;
  for (const block of blocks) {
    const whole = block.reduce((sum, row) => sum + row.tall, 0);
    if (whole > left && whole <= tall) {
      pages.push([]);
      left = tall;
    }
    for (const row of block) {
      if (row.tall > left) {
        pages.push([]);
        left = tall;
      }
      pages.at(-1)!.push(row);
      left -= row.tall;
    }
  }
  return pages.filter((rows) => rows.length > 0);
}

function stepBlock(step: Step, number: number, room: number, units: Units): Block {
  return [
    space(5),
    rule(room),
    ...paragraph(`${number}  ${step.title}`, room, 4.6, true),
    ...(step.tool ? paragraph(`Tool: ${step.tool}`, room, 3.4) : []),
    space(1),
    ...step.figures.flatMap((figure) => figureRows(figure, room, units)),
    ...(step.figures.length > 0 ? [space(1.5)] : []),
    ...step.notes.flatMap((note) => bullet("–", note, room)),
    ...(step.first ? bullet("Test first:", step.first, room) : []),
  ];
}

/** What is set at the left, how much at the right; inches have the millimetres under them. */
function figureRows({ what, mm, by }: StepFigure, room: number, units: Units): readonly Row[] {
  const between = by ? " × " : ", ";
  const metric = `${mm.map((v) => String(Number(v.toFixed(2)))).join(between)} mm`;
  const inches = `${mm.map((v) => formatLength(v, "in").replace(/ in$/, "")).join(between)} in`;
  const large = wrapped(units === "mm" ? metric : inches, room * 0.6, FIGURE_SIZE, true);
  const values: readonly Value[] = [
    ...large.map((words) => ({ words, size: FIGURE_SIZE, bold: true })),
    ...(units === "mm" ? [] : [{ words: metric, size: WORDS_SIZE, bold: false }]),
  ];
  const wide = Math.max(...values.map(({ words, size, bold }) => textWidth(words, size, bold)));
  const whatLines = wrapped(what, room - wide - 6, WORDS_SIZE);
  const count = Math.max(values.length, whatLines.length);
  return Array.from({ length: count }, (_, i) => {
    const value = values[i];
    const last = i === count - 1;
    return {
      tall: i === 0 ? 6.4 : 4.8,
      at: (y) => [
        ...(whatLines[i] ? [text(whatLines[i]!, SIDE, y + 1.6, WORDS_SIZE)] : []),
        ...(value
          ? [
              {
                ...text(value.words, SIDE + room, y + 1.6, value.size),
                bold: value.bold,
                anchor: "end",
              } as const,
            ]
          : []),
        ...(last ? [line(SIDE, y, SIDE + room, y, { width: 0.1, grey: 0.6 })] : []),
      ],
    };
  });
}

interface Value {
  readonly words: string;
  readonly size: number;
  readonly bold: boolean;
}

const FIGURE_SIZE = 4.8;
const WORDS_SIZE = 3.4;

const CAUTIONS = [
  "A router is a machine that can maim. Read its manual, wear eye and ear protection, keep sleeves and hair away, and pull the plug before a cutter, bush or bearing is changed or its height set.",
  "Plywood dust harms lungs, and its glue is in it: extract at the cutter, wear a mask for fine dust, and sweep nothing dry. Routers are loud enough to harm ears and neighbours.",
  "Feed against the cutter's turn, in shallow passes, with the work clamped; on the table use guards, featherboards and push blocks. Local rules on machines, dust and noise come before this paper.",
];

function cautions(room: number): Block {
  return [
    ...paragraph("Before the plug goes in", room, 3.8, true),
    ...CAUTIONS.flatMap((line) => bullet("–", line, room)),
  ];
}

function told(findings: readonly Finding[], room: number): Block {
  return [
    space(4),
    ...paragraph("To know before you start", room, 3.8, true),
    ...findings.flatMap(({ severity, message, wayOut }) =>
      bullet(severity === "warning" ? "!" : "–", wayOut ? `${message} ${wayOut}` : message, room),
    ),
  ];
}

function paragraph(words: string, room: number, size: number, bold = false): readonly Row[] {
  return wrapped(words, room, size, bold).map((l) => ({
    tall: size * 1.35,
    at: (y) => [{ ...text(l, SIDE, y + size * 0.3, size), bold }],
  }));
}

function bullet(mark: string, words: string, room: number): readonly Row[] {
  const indent = mark.length > 2 ? textWidth(`${mark} `, 3.2, true) + 1 : 4;
  return wrapped(words, room - indent, 3.2).map((l, i) => ({
    tall: 4.4,
    at: (y) => [
      ...(i === 0 ? [{ ...text(mark, SIDE, y + 1, 3.2), bold: true }] : []),
      text(l, SIDE + indent, y + 1, 3.2),
    ],
  }));
}

function space(tall: number): Row {
  return { tall, at: () => [] };
}

function rule(room: number): Row {
  return { tall: 1, at: (y) => [line(SIDE, y, SIDE + room, y, { width: 0.35 })] };
}

function head({ name, revision }: SettingsPaper, width: number, height: number): readonly PdfMark[] {
  const y = height - MARGIN - 6;
  return [
    { ...text(`${name}: settings for the hand router`, SIDE, y, 5.6), bold: true },
    { ...text(`revision ${revision}`, width - SIDE, y, 3.2), anchor: "end" },
    line(SIDE, y - 3.5, width - SIDE, y - 3.5, { width: 0.5 }),
  ];
}

function foot(width: number, page: number, pages: number): readonly PdfMark[] {
  return [
    text("Left, bottom: of the part seen from face A, its outline's lower left corner.", SIDE, MARGIN, 2.8),
    { ...text(`${page} of ${pages}`, width - SIDE, MARGIN, 2.8), anchor: "end" },
  ];
}

function text(words: string, x: number, y: number, size: number): Extract<PdfMark, { kind: "text" }> {
  return { kind: "text", text: words, at: { x, y }, size };
}
