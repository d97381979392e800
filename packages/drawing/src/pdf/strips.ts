import { type Point, rectangle } from "@dryfit/geometry";
import type { PdfMark } from "./mark.ts";
import { MARGIN } from "./paper.ts";
import { textWidth, wrapped } from "./text.ts";
import type { TiledDrawing } from "./tiles.ts";
import { line } from "./write.ts";

/** Kept beside and below the drawing for the two checks and the title block, mm. */
export const LEFT_STRIP = 8;
export const LOWER_STRIP = 27;

interface Strips {
  readonly drawing: TiledDrawing;
  readonly diagonal: number;
  readonly scale: Point;
  readonly size: readonly [number, number];
  readonly tile: string;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** What stands round the drawing on every sheet: 100 mm checks along both axes, how to print and join, the title block. */
export function strips(all: Strips): readonly PdfMark[] {
  return [...checks(all.scale), ...howTo(all), ...titleBlock(all)];
}

const THIN = { width: 0.18 } as const;

/** Where the checks start, mm from the page's lower left. */
const LEVEL_CHECK = { x: MARGIN, y: MARGIN + LOWER_STRIP - 7 };
const UPRIGHT_CHECK = { x: MARGIN + 4, y: MARGIN + LOWER_STRIP };

function checks(scale: Point): readonly PdfMark[] {
  const [long, tall] = [100 * scale.x, 100 * scale.y];
  const { x, y } = LEVEL_CHECK;
  const up = UPRIGHT_CHECK;
  return [
    line(x, y, x + long, y, THIN),
    ...[0, 0.5, 1].map((share) => tick(x + share * long, y, share === 0.5 ? 1 : 2, false)),
    { kind: "text", text: "100 mm across", at: { x: x + long / 4, y: y + 1 }, size: 2.8, anchor: "middle" },
    line(up.x, up.y, up.x, up.y + tall, THIN),
    ...[0, 0.5, 1].map((share) => tick(up.x, up.y + share * tall, share === 0.5 ? 1 : 2, true)),
    {
      kind: "text",
      text: "100 mm up",
      at: { x: up.x - 1, y: up.y + tall / 4 },
      size: 2.8,
      anchor: "middle",
      angle: Math.PI / 2,
    },
  ];
}

function tick(x: number, y: number, reach: number, level: boolean): PdfMark {
  return level ? line(x - reach, y, x + reach, y, THIN) : line(x, y - reach, x, y + reach, THIN);
}

function howTo({ scale, diagonal, columns, rows }: Strips): readonly PdfMark[] {
  const corrected = scale.x !== 1 || scale.y !== 1;
  const lines = [
    corrected
      ? `Corrected for one printer: drawn × ${scale.x.toFixed(4)} across, × ${scale.y.toFixed(4)} up.`
      : "Print at actual size (100 %), nothing fitted to the page.",
    "Use no sheet on which a check does not measure 100 mm.",
    ...(columns * rows > 1
      ? [
          "Cut one of two neighbours along the dash-dot line through the circles,",
          `lay it on the other's. Both diagonals of all sheets: ${diagonal.toFixed(1)} mm.`,
        ]
      : [`Both diagonals: ${diagonal.toFixed(1)} mm.`]),
  ];
  return lines.map((text, i) => ({
    kind: "text",
    text,
    at: { x: MARGIN, y: LEVEL_CHECK.y - 5.5 - 3.5 * i },
    size: 2.8,
  }));
}

/** From the end of a check, the widest that a correction makes it, to the right margin. */
const BLOCK_LEFT = MARGIN + 108;
const BLOCK_HEIGHT = LOWER_STRIP - 3;
const FACT_SIZE = 2.4;

function titleBlock({ drawing, size, tile, row, column, rows, columns }: Strips): readonly PdfMark[] {
  const right = size[0] - MARGIN;
  const top = MARGIN + BLOCK_HEIGHT;
  const sheetBox = 21;
  const room = right - BLOCK_LEFT - sheetBox - 4;
  const facts = drawing.facts.flatMap((fact) => wrapped(fact, room, FACT_SIZE)).slice(0, 5);
  const title = fitted(drawing.title, room, 3.8);
  return [
    {
      kind: "stroke",
      curves: [rectangle({ x: BLOCK_LEFT, y: MARGIN }, { x: right, y: top })],
      style: { width: 0.35 },
    },
    line(right - sheetBox, MARGIN, right - sheetBox, top, THIN),
    { kind: "text", text: drawing.title, at: { x: BLOCK_LEFT + 2, y: top - 5 }, size: title, bold: true },
    ...facts.map(
      (text, i): PdfMark => ({
        kind: "text",
        text,
        at: { x: BLOCK_LEFT + 2, y: top - 8.8 - 3 * i },
        size: FACT_SIZE,
      }),
    ),
    {
      kind: "text",
      text: `revision ${drawing.revision}`,
      at: { x: BLOCK_LEFT + 2, y: MARGIN + 1.5 },
      size: 2.2,
    },
    {
      kind: "text",
      text: tile,
      at: { x: right - sheetBox / 2, y: top - 7.5 },
      size: 7,
      anchor: "middle",
      bold: true,
    },
    ...overview(right - sheetBox / 2, MARGIN + 7.5, { row, column, rows, columns }),
  ];
}

/** The size at which a title still fits. */
function fitted(text: string, room: number, most: number): number {
  return Math.min(most, (most * room) / textWidth(text, most, true));
}

/** All sheets as they lie joined, this one crossed. */
function overview(
  x: number,
  y: number,
  { row, column, rows, columns }: Pick<Strips, "row" | "column" | "rows" | "columns">,
): readonly PdfMark[] {
  const step = Math.min(5, 17 / columns, 12 / rows);
  const [left, low] = [x - (columns * step) / 2, y - (rows * step) / 2];
  const at = (c: number, r: number) => ({ x: left + c * step, y: low + (rows - 1 - r) * step });
  const cells = Array.from({ length: rows * columns }, (_, i) => at(i % columns, Math.floor(i / columns)));
  const here = at(column, row);
  return [
    {
      kind: "stroke",
      curves: cells.map((c) => rectangle(c, { x: c.x + step, y: c.y + step })),
      style: { width: 0.13 },
    },
    line(here.x, here.y, here.x + step, here.y + step, THIN),
    line(here.x, here.y + step, here.x + step, here.y, THIN),
  ];
}
