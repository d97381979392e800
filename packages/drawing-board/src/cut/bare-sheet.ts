import type { BareSheet } from "@dryfit/job";
import type { ReadProgram } from "@dryfit/verify";

/**
 * What a program leaves unsaid, out of its header's comments where they tell it (ours do), else from what it cuts.
 * A guess: whoever dropped the file may set it right.
 */
export function bareSheetFor(text: string, { facts: { extents, deepest } }: ReadProgram): BareSheet {
  const header = headerOf(text);
  const sheet = /sheet:?\s+([\d.]+) x ([\d.]+) mm, ([\d.]+) mm thick/i.exec(header);
  const cutter = /cutter\b[^.]*?([\d.]+) mm/i.exec(header);
  const top = /\bZ0? ?on the (top|bed)/i.exec(header)?.[1]?.toLowerCase();
  const cutterDiameter = cutter ? within(cutter[1]) : 6;
  const [low, high] = [deepest ?? 0, extents?.max.z ?? 0];
  const zZero = top === "top" || top === "bed" ? top : low < -UNDER_BED_MM ? "top" : "bed";
  const far = (most: number | undefined): number =>
    Math.min(LARGEST_MM, Math.max(10, 10 * Math.ceil(((most ?? 0) + cutterDiameter / 2) / 10)));
  return {
    size: sheet ? [within(sheet[1]), within(sheet[2])] : [far(extents?.max.x), far(extents?.max.y)],
    thickness: sheet ? within(sheet[3]) : thicknessFor(zZero === "top" ? -low : high),
    zZero,
    cutterDiameter,
  };
}

/** A figure of a header, wherever that comes from. */
function within(text: string | undefined): number {
  const mm = Number(text);
  return mm > 0 && mm <= LARGEST_MM ? mm : 10;
}

/** No sheet on any router is larger, mm. */
export const LARGEST_MM = 10_000;

/** The comments before the first word that moves, as one text. */
function headerOf(text: string): string {
  const words: string[] = [];
  for (const line of text.slice(0, HEADER_LENGTH).split(/\r\n|\n|\r/)) {
    const comment = /^\s*(?:%|N\d+)?\s*(?:\(([^)]*)\)|;(.*))?\s*$/i.exec(line);
    if (!comment) break;
    words.push((comment[1] ?? comment[2] ?? "").trim());
  }
  return words.join(" ");
}

const HEADER_LENGTH = 8000;

/** The thickest of the usual sheets that a cut of this depth goes through. Common practice, no source. */
function thicknessFor(mm: number): number {
  return [18, 15, 12, 9, 6].find((usual) => usual <= mm + 0.01) ?? 18;
}

/** How far programs cut into the bed at most, mm: deeper than this below zero, zero is the sheet's top. */
const UNDER_BED_MM = 2;
