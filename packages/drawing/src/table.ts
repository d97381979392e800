import { lettering, SMALL, textWidth } from "./lettering.ts";
import { spot } from "./outline.ts";
import { el, group, type Markup } from "./svg.ts";

export interface Column {
  readonly title: string;
  /** Share of the table's width. */
  readonly share: number;
  /** Figures stand to the right. */
  readonly figures?: boolean;
}

const ROW = 5;

/** A ruled table on the paper; the first row is its head. Words that do not fit are set closer. */
export function paperTable(
  x: number,
  y: number,
  width: number,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): Markup {
  const total = columns.reduce((sum, column) => sum + column.share, 0);
  const starts = columns.map(
    (_, i) => x + (width * columns.slice(0, i).reduce((sum, column) => sum + column.share, 0)) / total,
  );
  const cell = (text: string, column: number, row: number, bold: boolean): Markup => {
    const room = (width * columns[column]!.share) / total - 2;
    const size = Math.min(SMALL, (SMALL * room) / Math.max(textWidth(text, SMALL, bold), 1e-6));
    const figures = columns[column]!.figures === true;
    return lettering(starts[column]! + (figures ? room + 1 : 1), y + (row + 0.5) * ROW, text, {
      size,
      bold,
      anchor: figures ? "end" : "start",
    });
  };
  const lines = Array.from(
    { length: rows.length + 2 },
    (_, i) => `M${spot({ x, y: y + i * ROW })}h${width.toFixed(3)}`,
  );
  return group(
    "table",
    el("path", { class: "rule", d: lines.join("") }),
    ...columns.map((column, i) => cell(column.title, i, 0, true)),
    ...rows.flatMap((row, r) => row.map((text, i) => cell(text, i, r + 1, false))),
  );
}

export function tableHeight(rows: number): number {
  return (rows + 1) * ROW;
}
