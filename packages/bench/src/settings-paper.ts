import {
  BULLET,
  bulletRows,
  flowed,
  grey,
  line,
  MARGIN,
  type PaperName,
  type PdfMark,
  type PdfPage,
  papers,
  type Row,
  type RowBlock,
  ruleRow,
  SIDE,
  spaceRow,
  textAt,
  textWidth,
  wordRows,
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
  const blocks: readonly RowBlock[] = [
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

const HEAD = 16;
const FOOT = 8;

function stepBlock(step: Step, number: number, room: number, units: Units): RowBlock {
  return [
    spaceRow(5),
    ruleRow(room),
    ...wordRows(`${number}  ${step.title}`, room, 4.6, true),
    ...(step.tool ? wordRows(`Tool: ${step.tool}`, room, 3.4) : []),
    spaceRow(1),
    ...step.figures.flatMap((figure) => figureRows(figure, room, units)),
    ...(step.figures.length > 0 ? [spaceRow(1.5)] : []),
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
        ...(whatLines[i] ? [textAt(whatLines[i]!, SIDE, y + 1.6, WORDS_SIZE)] : []),
        ...(value
          ? [
              {
                ...textAt(value.words, SIDE + room, y + 1.6, value.size),
                bold: value.bold,
                anchor: "end",
              } as const,
            ]
          : []),
        ...(last ? [line(SIDE, y, SIDE + room, y, { width: 0.1, colour: grey(0.6) })] : []),
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

/** For whoever holds a router by its handles. */
export const ROUTER_CAUTIONS: readonly string[] = [
  "A router is a machine that can maim. Read its manual, wear eye and ear protection, keep sleeves and hair away, and pull the plug before a cutter, bush or bearing is changed or its height set.",
  "Plywood dust harms lungs, and its glue is in it: extract at the cutter, wear a mask for fine dust, and sweep nothing dry. Routers are loud enough to harm ears and neighbours.",
  "Feed against the cutter's turn, in shallow passes, with the work clamped; on the table use guards, featherboards and push blocks. Local rules on machines, dust and noise come before this paper.",
];

function cautions(room: number): RowBlock {
  return [
    ...wordRows("Before the plug goes in", room, 3.8, true),
    ...ROUTER_CAUTIONS.flatMap((line) => bullet("–", line, room)),
  ];
}

function told(findings: readonly Finding[], room: number): RowBlock {
  return [
    spaceRow(4),
    ...wordRows("To know before you start", room, 3.8, true),
    ...findings.flatMap(({ severity, message, wayOut }) =>
      bullet(severity === "warning" ? "!" : "–", wayOut ? `${message} ${wayOut}` : message, room),
    ),
  ];
}

function bullet(mark: string, words: string, room: number): readonly Row[] {
  return bulletRows(mark, words, room, mark.length > 2 ? textWidth(`${mark} `, BULLET, true) + 1 : 4);
}

function head({ name, revision }: SettingsPaper, width: number, height: number): readonly PdfMark[] {
  const y = height - MARGIN - 6;
  return [
    { ...textAt(`${name}: settings for the hand router`, SIDE, y, 5.6), bold: true },
    { ...textAt(`revision ${revision}`, width - SIDE, y, 3.2), anchor: "end" },
    line(SIDE, y - 3.5, width - SIDE, y - 3.5, { width: 0.5 }),
  ];
}

function foot(width: number, page: number, pages: number): readonly PdfMark[] {
  return [
    textAt("Left, bottom: of the part seen from face A, its outline's lower left corner.", SIDE, MARGIN, 2.8),
    { ...textAt(`${page} of ${pages}`, width - SIDE, MARGIN, 2.8), anchor: "end" },
  ];
}
