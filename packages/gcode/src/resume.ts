import { OPERATION_MODES, PASS_MODES } from "./blocks.ts";

/** A place where a program can be taken up again. */
export interface ResumePoint {
  /** "7" for an operation, "7.2" for a pass of it: as the program's comments say. */
  readonly block: string;
  /** What is cut there; "" where the program has no comments. */
  readonly title: string;
  /** Of the program's text, from 1. */
  readonly line: number;
}

/** Where a program of ours can be taken up, in the order of cutting. */
export function resumePoints(text: string): readonly ResumePoint[] {
  const lines = text.split("\n");
  let [operation, pass] = [0, 0];
  return lines.flatMap((line, k): ResumePoint[] => {
    const mark = markOf(line);
    if (mark === null) return [];
    [operation, pass] = mark === "operation" ? [operation + 1, 0] : [operation, pass + 1];
    const label = labelLine(lines, k);
    const title = label === null ? "" : lines.slice(label, k).map(commentText).join(" ");
    return [
      {
        block: pass === 0 ? `${operation}` : `${operation}.${pass}`,
        title: title.replace(/^Block [\d.]+(: |$)/, ""),
        line: (label ?? k) + 1,
      },
    ];
  });
}

/**
 * The program that cuts what `text` cuts from `block` on, or null where it has no such block.
 *
 * Modes, cutter and speed are set as there. Taken up at a pass, the cutter goes over the place where the pass
 * begins and down to it at the plunge feed, through air that earlier passes have made.
 * Only for programs as `writePrograms` writes them: every block after a mark states all its words.
 */
export function resumedProgram(text: string, block: string): string | null {
  const points = resumePoints(text);
  const index = points.findIndex((point) => point.block === block);
  const point = points[index];
  if (point === undefined) return null;
  const lines = text.split("\n");
  const from = point.line - 1;
  const isPass = block.includes(".");
  const operation = isPass ? points.findLast(({ block: b }, k) => k < index && !b.includes("."))! : point;
  const first = points[0]!.line - 1;
  const preamble = lines.slice(0, first);
  const modes = preamble.findIndex((line) => wordsOf(line) !== "" && line !== "%");
  return [
    ...preamble.slice(0, modes).filter((line) => line === "%"),
    ...noteLines(lines, point),
    ...preamble.slice(0, modes).filter((line) => line !== "%"),
    // Modes, and up to the height of rapids.
    ...preamble.slice(modes, modes + 2),
    ...mountingBefore(lines, operation.line - 1, modes + 2),
    ...(isPass
      ? [...stateOf(lines, operation.line - 1), ...approachTo(lines, operation.line - 1, from)]
      : []),
    ...lines.slice(from),
  ].join("\n");
}

/**
 * What the program that is to be taken up at `block` has done until then: its blocks before, and its end. Null where
 * it has no such block.
 */
export function programUntil(text: string, block: string): string | null {
  const point = resumePoints(text).find((one) => one.block === block);
  if (point === undefined) return null;
  const lines = text.split("\n");
  const last = lines.findLastIndex((line) => wordsOf(line).startsWith("G0 Z"));
  return [...lines.slice(0, point.line - 1), ...lines.slice(last)].join("\n");
}

/** Which mark a line is: only there do these modes stand without a unit. */
function markOf(line: string): "operation" | "pass" | null {
  const words = wordsOf(line);
  if (starts(words, OPERATION_MODES)) return "operation";
  return starts(words, PASS_MODES) ? "pass" : null;
}

function starts(words: string, modes: readonly string[]): boolean {
  const list = modes.join(" ");
  return words === list || words.startsWith(`${list} `);
}

/** The first line of the comment that stands right over a mark, if it is its label. */
function labelLine(lines: readonly string[], mark: number): number | null {
  for (let k = mark - 1; k >= 0 && isComment(lines[k]!); k--) {
    if (/^Block [\d.]+(:|$)/.test(commentText(lines[k]!))) return k;
  }
  return null;
}

/** The lines that last put a cutter in and started it, before the operation that begins at `end`. */
function mountingBefore(lines: readonly string[], end: number, begin: number): readonly string[] {
  const starters = /^((T\d+ )?M0|S[\d.]+ M3)$/;
  let last = end - 1;
  while (last >= begin && !starters.test(wordsOf(lines[last]!))) last--;
  // A start is followed by its dwell; the change and its message stand before it.
  const stop = wordsOf(lines[last + 1] ?? "").startsWith("G4 ") ? last + 1 : last;
  let start = last;
  while (start > begin && isMounting(lines[start - 1]!)) start--;
  return last < begin ? [] : lines.slice(start, stop + 1);
}

function isMounting(line: string): boolean {
  return isComment(line) || /^((T\d+ )?M0|M5|T\d+ M6|G43 H\d+|S[\d.]+ M3)$/.test(wordsOf(line));
}

/** The operation's own modes, so that the speed is stated at a pass too. */
function stateOf(lines: readonly string[], operation: number): readonly string[] {
  const mark = lines.findIndex((line, k) => k >= operation && markOf(line) === "operation");
  return [lines[mark]!];
}

/** To where the cutter stood when the pass began. */
function approachTo(lines: readonly string[], operation: number, pass: number): readonly string[] {
  const at = standsAt(lines.slice(operation, pass));
  const feeds = lines.slice(operation).flatMap((line) => /(?:^| )F([\d.]+)/.exec(wordsOf(line))?.[1] ?? []);
  return [`G0 X${at.X} Y${at.Y}`, `G1 Z${at.Z} F${feeds[0]}`];
}

/** The words X, Y and Z where the lines leave the cutter; a canned cycle leaves it as high as it came. */
function standsAt(lines: readonly string[]): Readonly<Record<"X" | "Y" | "Z", string>> {
  const at = { X: "0.0", Y: "0.0", Z: "0.0" };
  let drilling = false;
  for (const line of lines) {
    const words = wordsOf(line);
    if (/G8[1-3](?!\d)/.test(words)) drilling = true;
    else if (/G(0|1|2|3|80)(?!\d)/.test(words)) drilling = false;
    for (const [, letter, value] of words.matchAll(/([XYZ])(-?[\d.]+)/g)) {
      if (letter !== "Z" || !drilling) at[letter as "X" | "Y" | "Z"] = value!;
    }
  }
  return at;
}

/** In the program's own form of comment; none where it has none. */
function noteLines(lines: readonly string[], { block }: ResumePoint): readonly string[] {
  const form = lines.find(isComment);
  if (form === undefined) return [];
  const note = [`Taken up again at block ${block}.`, "What follows was said of the whole program."];
  return note.map((text) => (form.startsWith(";") ? `; ${text}` : `(${text})`));
}

function isComment(line: string): boolean {
  return /^[(;]/.test(line);
}

function commentText(line: string): string {
  return line.replace(/^\(|^; ?|\)$/g, "");
}

/** The line without its number; nothing of a comment or a mark. */
function wordsOf(line: string): string {
  return isComment(line) || line === "%" ? "" : line.replace(/^N\d+ /, "");
}
