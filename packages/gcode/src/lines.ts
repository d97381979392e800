import { commentLines } from "./comment.ts";
import type { Controller } from "./machine.ts";

/** A line of a program before it has its number, brackets and marks. */
export type Line =
  | { readonly kind: "comment"; readonly text: string }
  /** Shown by the controller while the program waits; for controllers that can. */
  | { readonly kind: "message"; readonly text: string }
  | { readonly kind: "words"; readonly words: readonly string[] };

export function words(...list: readonly (string | null)[]): Line {
  return { kind: "words", words: list.filter((word) => word !== null) };
}

export function comment(text: string): Line {
  return { kind: "comment", text };
}

export function message(text: string): Line {
  return { kind: "message", text };
}

/** The text of a program: lines in the controller's form, each ended. */
export function textOf(lines: readonly Line[], controller: Controller): string {
  const numbers = numbering(controller);
  const printed = lines.flatMap((line) =>
    line.kind === "words"
      ? fitted(line.words, controller).map((block) => `${numbers()}${block}`)
      : commentLines(line.kind === "message" ? messageText(line.text, controller) : line.text, controller),
  );
  const marked = controller.percentMarks ? ["%", ...printed, "%"] : printed;
  return `${marked.join("\n")}\n`;
}

/** How many of the lines will hold words. */
export function blockCount(lines: readonly Line[], controller: Controller): number {
  return lines.reduce(
    (n, line) => n + (line.kind === "words" ? fitted(line.words, controller).length : 0),
    0,
  );
}

/** "MSG," is shown to the operator (NISTIR 6556, 3.3.4); only bracketed comments have it. */
function messageText(text: string, { comments }: Controller): string {
  return comments === "parentheses" ? `MSG, ${text}` : text;
}

/** N10, N20 … and over again: a number has at most five digits, and repeats mean nothing (NISTIR 6556, 3.3.2). */
function numbering({ lineNumbers }: Controller): () => string {
  let n = 0;
  return () => {
    if (!lineNumbers) return "";
    n = n >= LAST_NUMBER ? NUMBER_STEP : n + NUMBER_STEP;
    return `N${n} `;
  };
}

const NUMBER_STEP = 10;
const LAST_NUMBER = 99_990;
const NUMBER_WIDTH = "N99990 ".length;

/** One block, or where it is too long the feed word in a block before it, and no spaces. */
function fitted(list: readonly string[], { maxLineLength, lineNumbers }: Controller): readonly string[] {
  const width = maxLineLength - (lineNumbers ? NUMBER_WIDTH : 0);
  const whole = list.join(" ");
  if (whole.length <= width) return [whole];
  const isFeed = (word: string): boolean => word.startsWith("F");
  const rest = list.filter((word) => !isFeed(word));
  const tight = [
    list.filter(isFeed).join(""),
    rest.join(" ").length <= width ? rest.join(" ") : rest.join(""),
  ];
  if (tight.some((block) => block.length > width))
    throw new RangeError(`no room for "${whole}" in ${maxLineLength} letters`);
  return tight.filter((block) => block !== "");
}
