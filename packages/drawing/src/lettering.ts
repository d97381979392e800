import type { Thickness } from "@dryfit/joinery";
import { el, escaped, type Markup } from "./svg.ts";

/** Heights of letters on an A3 sheet, mm of font size. Source: ISO 3098 asks for capitals of at least 2.5 mm on A3. */
export const SMALL = 3;
export const PLAIN = 3.5;
export const LARGE = 5;

export interface Lettering {
  readonly size?: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly bold?: boolean;
  readonly turned?: boolean;
  readonly cssClass?: string;
}

/** A line of text whose middle height stands at y. */
export function lettering(x: number, y: number, text: string, options: Lettering = {}): Markup {
  const { size = PLAIN, anchor = "start", bold = false, turned = false, cssClass } = options;
  const baseline = CAPITALS / 2;
  return el(
    "text",
    {
      x,
      y: turned ? y : y + size * baseline,
      "font-size": size,
      "text-anchor": anchor === "start" ? undefined : anchor,
      "font-weight": bold ? 600 : undefined,
      transform: turned
        ? `rotate(-90 ${trim(x)} ${trim(y)}) translate(0 ${trim(size * baseline)})`
        : undefined,
      class: cssClass,
    },
    escaped(text),
  );
}

/** How wide a line of text will be, near enough to keep things apart: no sans is much wider. */
export function textWidth(text: string, size: number, bold = false): number {
  let width = 0;
  for (const letter of text) width += letterWidth(letter);
  return width * size * (bold ? 1.06 : 1);
}

/** Breaks text between words so that no line is wider than asked. */
export function wrapped(text: string, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidth(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** A length on a plan: a tenth of a millimetre where there is one. */
export function length(mm: number, decimals = 1): string {
  return String(Number(mm.toFixed(decimals)) + 0);
}

/** "14.8 mm", or "12.2 to 12.6 mm, mean 12.41" where there are readings. */
export function thicknessWords({ min, mean, max }: Thickness): string {
  return min === max
    ? `${length(mean, 2)} mm`
    : `${length(min, 2)} to ${length(max, 2)} mm, mean ${length(mean, 2)}`;
}

/** Height of capitals as a share of the font size. */
const CAPITALS = 0.72;

function letterWidth(letter: string): number {
  if (/[ .,:;'|!ijl()[\]fIrt-]/.test(letter)) return 0.36;
  if (/[A-Z@%mwMW×]/.test(letter)) return 0.76;
  return 0.58;
}

function trim(value: number): number {
  return Number(value.toFixed(3));
}
