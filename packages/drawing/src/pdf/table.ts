import { BLANK, type Head } from "../paper/block.ts";
import { grey, type PdfMark } from "./mark.ts";
import { type Row, SIDE, textAt } from "./rows.ts";
import { textWidth, wrapped } from "./text.ts";
import { line } from "./write.ts";

/** Columns as wide as what stands in them, the widest giving way where the page is too narrow. */
export function tableRows(
  heads: readonly Head[],
  rows: readonly (readonly string[])[],
  room: number,
): readonly Row[] {
  const widths = columnWidths(heads, rows, room);
  const starts = widths.map((_, i) => widths.slice(0, i).reduce((sum, width) => sum + width + CELL_GAP, 0));
  const cells = (words: readonly string[], bold: boolean): Row => {
    const lines = words.map((text, i) => (text === BLANK ? [""] : brokenUp(text, widths[i]!, bold)));
    const tall = 1.6 + 3.9 * Math.max(1, ...lines.map((each) => each.length));
    return {
      tall,
      at: (y) => [
        ...lines.flatMap((each, i) =>
          each.map((text, k): PdfMark => {
            const right = heads[i]?.figures === true;
            const x = SIDE + starts[i]! + (right ? widths[i]! : 0);
            return {
              ...textAt(text, x, y + tall - 3.9 * (k + 1), CELL),
              bold,
              anchor: right ? "end" : "start",
            };
          }),
        ),
        line(SIDE, y, SIDE + room, y, bold ? { width: 0.35 } : { width: 0.1, colour: grey(0.6) }),
      ],
    };
  };
  return [
    cells(
      heads.map(({ title }) => title),
      true,
    ),
    ...rows.map((row) => cells(row, false)),
  ];
}

const CELL = 2.9;
const CELL_GAP = 2.5;

function columnWidths(
  heads: readonly Head[],
  rows: readonly (readonly string[])[],
  room: number,
): readonly number[] {
  const wanted = heads.map(({ title }, i) =>
    Math.max(
      textWidth(title, CELL, true),
      ...rows.map((row) => (row[i] === BLANK ? PENCIL : textWidth(row[i] ?? "", CELL))),
    ),
  );
  const free = room - CELL_GAP * (heads.length - 1);
  let widths = wanted;
  // What is too much is taken from the widest, until it is as narrow as the next.
  for (let over = sum(widths) - free; over > 1e-6; over = sum(widths) - free) {
    const most = Math.max(...widths);
    const next = Math.max(0, ...widths.filter((width) => width < most - 1e-9));
    const count = widths.filter((width) => width >= most - 1e-9).length;
    const cut = Math.min(over / count, most - next);
    widths = widths.map((width) => (width >= most - 1e-9 ? width - cut : width));
  }
  const spare = Math.max(0, free - sum(widths));
  return widths.map((width) => width + spare / heads.length);
}

/** Room for a pencil's figure, mm. */
const PENCIL = 16;

function sum(list: readonly number[]): number {
  return list.reduce((total, each) => total + each, 0);
}

/** Wrapped at spaces, and within long words at hyphens and slashes. */
function brokenUp(text: string, width: number, bold: boolean): readonly string[] {
  return wrapped(text, width, CELL, bold).flatMap((part) => {
    const lines: string[] = [];
    for (const piece of part.split(/(?<=[-/])/)) {
      const longer = `${lines.at(-1) ?? ""}${piece}`;
      if (lines.length > 0 && textWidth(longer, CELL, bold) <= width) lines[lines.length - 1] = longer;
      else lines.push(piece);
    }
    return lines;
  });
}
