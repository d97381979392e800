import type { PdfMark } from "./mark.ts";
import { wrapped } from "./text.ts";
import { line } from "./write.ts";

/** A line of a page: how tall it is, and what is drawn with its foot at `y`. mm. */
export interface Row {
  readonly tall: number;
  readonly at: (y: number) => readonly PdfMark[];
  /** Drawn over it once more where it is the first of a page: its table's head. */
  readonly again?: Row;
}

/** Rows that should stay on one page. */
export type RowBlock = readonly Row[];

/** Kept white at the left and the right of a page that is read, mm. */
export const SIDE = 15;

/** Blocks on pages of so much height, on the first of `first`; one longer than a page is broken. */
export function flowed(
  blocks: readonly RowBlock[],
  tall: number,
  first: number = tall,
): readonly (readonly Row[])[] {
  const pages: Row[][] = [[]];
  let left = first;
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
      if (row.again && pages.length > 1 && pages.at(-1)!.length === 0) {
        pages.at(-1)!.push(row.again);
        left -= row.again.tall;
      }
      pages.at(-1)!.push(row);
      left -= row.tall;
    }
  }
  return pages.filter((rows) => rows.length > 0);
}

/** What rows draw below one another, the first with its head at `top`. */
export function rowMarks(rows: readonly Row[], top: number): readonly PdfMark[] {
  const marks: PdfMark[] = [];
  let y = top;
  for (const row of rows) {
    y -= row.tall;
    marks.push(...row.at(y));
  }
  return marks;
}

/** Words in lines of at most `room` mm. */
export function wordRows(words: string, room: number, size: number, bold = false): readonly Row[] {
  return wrapped(words, room, size, bold).map((l) => ({
    tall: size * 1.35,
    at: (y) => [{ ...textAt(l, SIDE, y + size * 0.3, size), bold }],
  }));
}

/** Words behind a mark that stands in the margin of their first line. */
export function bulletRows(mark: string, words: string, room: number, indent: number): readonly Row[] {
  return wrapped(words, room - indent, BULLET).map((l, i) => ({
    tall: 4.4,
    at: (y) => [
      ...(i === 0 ? [{ ...textAt(mark, SIDE, y + 1, BULLET), bold: true }] : []),
      textAt(l, SIDE + indent, y + 1, BULLET),
    ],
  }));
}

/** Size of the type of what is listed, mm. */
export const BULLET = 3.2;

export function spaceRow(tall: number): Row {
  return { tall, at: () => [] };
}

export function ruleRow(room: number): Row {
  return { tall: 1, at: (y) => [line(SIDE, y, SIDE + room, y, { width: 0.35 })] };
}

export function textAt(
  words: string,
  x: number,
  y: number,
  size: number,
): Extract<PdfMark, { kind: "text" }> {
  return { kind: "text", text: words, at: { x, y }, size };
}
