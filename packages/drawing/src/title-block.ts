import { LARGE, lettering, PLAIN, SMALL, wrapped } from "./lettering.ts";
import type { Verdict } from "./picture.ts";
import { el, group, type Markup } from "./svg.ts";

/** A field of the title block: a small caption over its content. */
interface Field {
  readonly caption: string;
  readonly text: string;
}

export interface TitleBlock {
  readonly name: string;
  readonly subject: string;
  readonly verdict: Verdict | null;
  /** Rows of fields, each row filling the block's width. */
  readonly fields: readonly (readonly Field[])[];
}

export const TITLE_WIDTH = 170;
const ROW = 9;
const VERDICT_ROW = 13;

export function titleBlockHeight({ fields, verdict }: TitleBlock): number {
  return (verdict ? VERDICT_ROW : 0) + 12 + fields.length * ROW;
}

/** The block at the sheet's lower right (ISO 7200), the proof's verdict first. x, y is its upper left. */
export function titleBlock(x: number, y: number, block: TitleBlock): Markup {
  const height = titleBlockHeight(block);
  const top = y + (block.verdict ? VERDICT_ROW : 0);
  return group(
    "title-block",
    el("rect", { class: "paper", x, y, width: TITLE_WIDTH, height }),
    el("rect", { class: "frame", x, y, width: TITLE_WIDTH, height }),
    block.verdict ? verdictRow(x, y, block.verdict) : "",
    lettering(x + 3, top + 6, block.name, { size: LARGE + 1, bold: true }),
    lettering(x + TITLE_WIDTH - 3, top + 6, block.subject, { size: LARGE, anchor: "end" }),
    ...block.fields.map((row, i) => fieldRow(x, top + 12 + i * ROW, row)),
  );
}

function verdictRow(x: number, y: number, verdict: Verdict): Markup {
  const lines = wrapped(verdict.sentence, PLAIN, TITLE_WIDTH - 18).slice(0, 2);
  return group(
    "verdict",
    verdictMark(x + 7, y + VERDICT_ROW / 2, verdict.pass),
    ...lines.map((line, i) =>
      lettering(x + 14, y + VERDICT_ROW / 2 + (i - (lines.length - 1) / 2) * PLAIN * 1.35, line, {
        bold: true,
      }),
    ),
    rule(x, y + VERDICT_ROW),
  );
}

/** A disc with a tick where it is proved, a square with a cross where it is not: told apart without colour. */
function verdictMark(x: number, y: number, pass: boolean): Markup {
  return pass
    ? el("circle", { class: "proved", cx: x, cy: y, r: 3.6 }) +
        el("path", { class: "on-mark", d: `M${x - 1.7} ${y}l1.3 1.5l2.4 -3` })
    : el("rect", { class: "refused", x: x - 3.4, y: y - 3.4, width: 6.8, height: 6.8 }) +
        el("path", { class: "on-mark", d: `M${x - 1.7} ${y - 1.7}l3.4 3.4m0 -3.4l-3.4 3.4` });
}

function fieldRow(x: number, y: number, fields: readonly Field[]): Markup {
  const width = TITLE_WIDTH / fields.length;
  return (
    rule(x, y) +
    fields
      .map(({ caption, text }, i) => {
        const left = x + i * width;
        const line = i === 0 ? "" : el("path", { class: "rule", d: `M${left.toFixed(3)} ${y}v${ROW}` });
        return (
          line +
          lettering(left + 2, y + 2.5, caption, { size: SMALL - 0.5 }) +
          lettering(left + 2, y + 6.3, text, { size: PLAIN })
        );
      })
      .join("")
  );
}

function rule(x: number, y: number): Markup {
  return el("path", { class: "rule", d: `M${x} ${y}h${TITLE_WIDTH}` });
}
