import { rectangle } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import { printed } from "../pdf/from-svg.ts";
import type { PdfMark, PdfPage } from "../pdf/mark.ts";
import { MARGIN, type PaperName, papers } from "../pdf/paper.ts";
import {
  bulletRows,
  flowed,
  type Row,
  type RowBlock,
  rowMarks,
  ruleRow,
  SIDE,
  spaceRow,
  textAt,
  wordRows,
} from "../pdf/rows.ts";
import { tableRows } from "../pdf/table.ts";
import { line } from "../pdf/write.ts";
import type { Block, Paper, Section } from "./block.ts";

/**
 * The paper in print: what is read first, then each wide drawing on a page of its own, as large as it was drawn.
 * A printer that has no paper so large fits it to the page; the figures on it stay true.
 */
export function paperPages(paper: Paper, name: PaperName): readonly PdfPage[] {
  const [width, height] = papers[name];
  const room = width - 2 * SIDE;
  const tall = height - 2 * MARGIN - HEAD - FOOT;
  const read = paper.sections
    .map((one) => ({ ...one, blocks: one.blocks.filter((block) => !isWide(block)) }))
    .filter(({ blocks }) => blocks.length > 0)
    .flatMap((one) => sectionRows(one, room, tall));
  const wide = paper.sections.flatMap(({ blocks }) => blocks.filter(isWide));
  const pages = [
    ...flowed([titleBlock(paper, room), ...read], tall).map((rows) => readPage(paper, rows, [width, height])),
    ...wide.map(({ svg }): PdfPage => printed(svg)),
  ];
  return pages.map((page, i) => ({
    ...page,
    marks: [...page.marks, ...pageNumber(page, i + 1, pages.length)],
  }));
}

type WideDrawing = Extract<Block, { kind: "drawing" }>;

function isWide(block: Block): block is WideDrawing {
  return block.kind === "drawing" && block.wide;
}

const HEAD = 12;
const FOOT = 8;

function readPage(paper: Paper, rows: readonly Row[], [width, height]: readonly [number, number]): PdfPage {
  const top = height - MARGIN - 5;
  const marks: PdfMark[] = [
    { ...textAt(`${paper.name}: ${paper.subject.toLowerCase()}`, SIDE, top, 3.4), bold: true },
    { ...textAt(`revision ${paper.revision}`, width - SIDE, top, 3.2), anchor: "end" },
    line(SIDE, top - 2, width - SIDE, top - 2, { width: 0.35 }),
  ];
  return { size: [width, height], marks: [...marks, ...rowMarks(rows, height - MARGIN - HEAD)] };
}

/** Drawings bear a title block of their own, below their border. */
function pageNumber({ size: [width] }: PdfPage, page: number, pages: number): readonly PdfMark[] {
  return [{ ...textAt(`${page} of ${pages}`, width - SIDE, 4.5, 2.8), anchor: "end" }];
}

function titleBlock({ name, subject, verdict, fields }: Paper, room: number): RowBlock {
  const columns = 3;
  const wide = room / columns;
  const lines = Array.from({ length: Math.ceil(fields.length / columns) }, (_, i) =>
    fields.slice(i * columns, (i + 1) * columns),
  );
  return [
    spaceRow(4),
    {
      tall: 9,
      at: (y) => [
        { ...textAt(name, SIDE, y + 2, 7.5), bold: true },
        { ...textAt(subject, SIDE + room, y + 2, 5), anchor: "end" },
      ],
    },
    ...(verdict === null ? [] : wordRows(verdict.sentence, room, 4, true)),
    spaceRow(2),
    ...lines.map(
      (cells): Row => ({
        tall: 10,
        at: (y) => [
          line(SIDE, y + 10, SIDE + room, y + 10, { width: 0.18 }),
          ...cells.flatMap(([caption, text], i): PdfMark[] => [
            textAt(caption, SIDE + i * wide, y + 6.6, 2.4),
            textAt(text, SIDE + i * wide, y + 2, text.length > 34 ? 2.8 : 3.4),
          ]),
        ],
      }),
    ),
    ruleRow(room),
  ];
}

/** The heading stays with what comes first under it. */
function sectionRows({ title, blocks }: Section, room: number, tall: number): readonly RowBlock[] {
  const heading: RowBlock = [spaceRow(6), ...wordRows(title, room, 4.6, true), ruleRow(room), spaceRow(1.5)];
  const bodies = blocks.map((block) => blockRows(block, room, tall));
  const [first = [], ...others] = bodies;
  const kept = first.slice(0, 4);
  return [[...heading, ...kept], first.slice(4), ...others].filter((rows) => rows.length > 0);
}

function blockRows(block: Block, room: number, tall: number): RowBlock {
  switch (block.kind) {
    case "paragraph":
      return [...wordRows(block.text, room, 3.3), spaceRow(1.5)];
    case "title":
      return [spaceRow(2), ...wordRows(block.text, room, 3.6, true), spaceRow(0.8)];
    case "steps":
      return [...block.items.flatMap((item, i) => bulletRows(`${i + 1}`, item, room, 7)), spaceRow(1.5)];
    case "checks":
      return [...block.items.flatMap((item) => checkRows(item, room)), spaceRow(1.5)];
    case "caution":
      return [...block.items.flatMap((item) => bulletRows("!", item, room, 5)), spaceRow(1.5)];
    case "findings":
      return [...block.findings.flatMap((finding) => findingRows(finding, room)), spaceRow(1.5)];
    case "command":
      return [...wordRows(block.text, room, 3.2), spaceRow(1.5)];
    case "table":
      return [...tableRows(block.heads, block.rows, room), spaceRow(2)];
    case "drawing":
      return [drawingRow(block.svg, room, tall)];
  }
}

/** A box to tick. */
function checkRows(item: string, room: number): readonly Row[] {
  const rows = bulletRows("", item, room, 7);
  return rows.map((row, i) =>
    i > 0
      ? row
      : {
          ...row,
          at: (y) => [
            {
              kind: "stroke",
              curves: [rectangle({ x: SIDE, y: y + 0.8 }, { x: SIDE + 3, y: y + 3.8 })],
              style: { width: 0.25 },
            },
            ...row.at(y),
          ],
        },
  );
}

function findingRows({ severity, message, wayOut }: Finding, room: number): readonly Row[] {
  const words = `${severity[0]!.toUpperCase()}${severity.slice(1)}: ${message}${wayOut === undefined ? "" : ` ${wayOut}`}`;
  return bulletRows(severity === "note" ? "–" : "!", words, room, 5);
}

/** As wide as the page is for reading, and never taller than a page. */
function drawingRow(svg: string, room: number, tall: number): Row {
  const { size, marks } = printed(svg);
  const scale = Math.min(room / size[0], (tall - 30) / size[1]);
  const [width, height] = [size[0] * scale, size[1] * scale];
  return {
    tall: height + 3,
    at: (y) => [
      {
        kind: "group",
        clip: null,
        scale: { x: scale, y: scale },
        shift: { x: SIDE + (room - width) / 2, y: y + 1.5 },
        marks,
      },
    ],
  };
}
