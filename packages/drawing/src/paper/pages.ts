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

/**
 * A heading and a title stay with what comes first under them, a table with the words below it, a short section with
 * itself; a page may end behind any other group.
 */
function sectionRows({ title, blocks }: Section, room: number, tall: number): readonly RowBlock[] {
  let lead: RowBlock = [spaceRow(6), ...wordRows(title, room, 4.6, true), ruleRow(room), spaceRow(1.5)];
  const groups: RowBlock[] = [];
  for (const [i, block] of blocks.entries()) {
    const [first = [], ...others] = blockGroups(block, room, tall);
    if (block.kind === "title") lead = [...lead, ...first];
    else if (block.kind === "paragraph" && blocks[i - 1]?.kind === "table")
      groups.push([...(groups.pop() ?? []), ...first]);
    else {
      groups.push([...lead, ...first], ...others);
      lead = [];
    }
  }
  const all = lead.length > 0 ? [...groups, lead] : groups;
  const whole = all.flat().reduce((sum, row) => sum + row.tall, 0);
  return whole < tall * SHORT ? [all.flat()] : all;
}

/** Of a page: a section that takes less is not broken. */
const SHORT = 0.4;

/** Rows that stay together, in order: two items of a list at its start and its end, single ones between. */
function blockGroups(block: Block, room: number, tall: number): readonly RowBlock[] {
  switch (block.kind) {
    case "paragraph":
      return [[...wordRows(block.text, room, 3.3), spaceRow(1.5)]];
    case "title":
      return [[spaceRow(2), ...wordRows(block.text, room, 3.6, true), spaceRow(0.8)]];
    case "steps":
      return listGroups(block.items.map((item, i) => bulletRows(`${i + 1}`, item, room, 7)));
    case "checks":
      return listGroups(block.items.map((item) => checkRows(item, room)));
    case "caution":
      return listGroups(block.items.map((item) => bulletRows("!", item, room, 5)));
    case "findings":
      return listGroups(block.findings.map((finding) => findingRows(finding, room)));
    case "command":
      return [[...wordRows(block.text, room, 3.2), spaceRow(1.5)]];
    case "table": {
      const [head, ...rows] = tableRows(block.heads, block.rows, room);
      return listGroups([[head!], ...rows.map((row) => [{ ...row, again: head! }])], 3);
    }
    case "drawing":
      return [[drawingRow(block.svg, room, tall)]];
  }
}

function listGroups(items: readonly RowBlock[], first = 2): readonly RowBlock[] {
  const spaced = items.map((rows, i) => (i === items.length - 1 ? [...rows, spaceRow(1.5)] : rows));
  if (spaced.length < first + 3) return [spaced.flat()];
  return [spaced.slice(0, first).flat(), ...spaced.slice(first, -2), spaced.slice(-2).flat()];
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
