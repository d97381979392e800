import { doubt, type Problem, problem } from "./problem.ts";
import {
  type Cursor,
  isLetter,
  type Parameters,
  peek,
  readParameterIndex,
  readValue,
  WHOLE,
} from "./value.ts";

/** One program line, taken apart: what it asks, in no order, for order on a line means nothing. */
export interface Block {
  /** G codes times ten: G38.2 is 382. */
  readonly g: readonly number[];
  readonly m: readonly number[];
  readonly words: Words;
  /** `#n = value`, to be set after every value on the line has been read. */
  readonly settings: readonly (readonly [index: number, value: number])[];
  /** A `/` stands first: an operator's switch decides whether the line runs. */
  readonly deletable: boolean;
  readonly problems: readonly Problem[];
}

/** Words other than G, M and N, each at most once on a line (NISTIR 6556, 3.3.1). */
export type Letter =
  | "a"
  | "b"
  | "c"
  | "d"
  | "f"
  | "h"
  | "i"
  | "j"
  | "k"
  | "l"
  | "p"
  | "q"
  | "r"
  | "s"
  | "t"
  | "x"
  | "y"
  | "z";
export type Words = Readonly<Partial<Record<Letter, number>>>;

const LETTERS = "abcdfhijklpqrstxyz";
const LINE_LENGTH_MAX = 256;
const LINE_NUMBER_DIGITS_MAX = 5;

/**
 * Reads a line by the rules of NISTIR 6556, 3.3. A semicolon comment, which that language lacks, is allowed.
 * Reading stops at the first thing that is wrong: what follows it cannot be trusted.
 */
export function readBlock(text: string, parameters: Parameters): Block {
  const g: number[] = [];
  const m: number[] = [];
  const words: Partial<Record<Letter, number>> = {};
  const into = { g, m, words };
  const settings: [number, number][] = [];
  const doubts: Problem[] = [];
  const cursor: Cursor = { text, at: 0, problem: null };
  const done = (deletable: boolean): Block => ({
    g,
    m,
    words,
    settings,
    deletable,
    problems: cursor.problem === null ? doubts : [...doubts, cursor.problem],
  });

  if (text.length > LINE_LENGTH_MAX) {
    cursor.problem = problem(
      "line_too_long",
      `A line may hold ${LINE_LENGTH_MAX} characters, this one has ${text.length}.`,
      { length: text.length, longest: LINE_LENGTH_MAX },
    );
    return done(false);
  }

  const deletable = peek(cursor) === "/";
  if (deletable) cursor.at++;
  if (peek(cursor) === "n") readLineNumber(cursor);

  while (cursor.problem === null) {
    const c = peek(cursor);
    if (c === "" || c === ";") break;
    if (c === "(") readComment(cursor, doubts);
    else if (c === "#") readSetting(cursor, parameters, settings);
    else if (isLetter(c)) readWord(cursor, c, parameters, into);
    else
      cursor.problem = problem("illegal_character", `"${c}" has no meaning here.`, {
        column: cursor.at + 1,
      });
  }
  return done(deletable);
}

function readWord(
  cursor: Cursor,
  letter: string,
  parameters: Parameters,
  into: { g: number[]; m: number[]; words: Partial<Record<Letter, number>> },
): void {
  const column = cursor.at + 1;
  const name = letter.toUpperCase();
  if (letter !== "g" && letter !== "m" && !LETTERS.includes(letter)) {
    const why =
      letter === "n" ? "A line number stands first on its line." : `${name} is not a word of the language.`;
    cursor.problem = problem("illegal_word", why, { column });
    return;
  }
  cursor.at++;
  const value = readValue(cursor, parameters);
  if (cursor.problem !== null) return;
  if (letter === "g" || letter === "m") {
    const scaled = letter === "g" ? value * 10 : value;
    const code = Math.round(scaled);
    // The rule allows 0.0001 of the number itself, so ten times that of a tenfold one.
    const slack = letter === "g" ? 10 * WHOLE : WHOLE;
    if (Math.abs(scaled - code) > slack || code < 0)
      cursor.problem = problem("unknown_code", `${name}${value} is not a code.`, { column });
    else into[letter].push(code);
    return;
  }
  if (into.words[letter as Letter] !== undefined)
    cursor.problem = problem("repeated_word", `${name} stands twice on one line.`, { column });
  else into.words[letter as Letter] = value;
}

function readLineNumber(cursor: Cursor): void {
  cursor.at++;
  let digits = 0;
  for (let c = peek(cursor); c >= "0" && c <= "9"; c = peek(cursor)) {
    digits++;
    cursor.at++;
  }
  if (digits === 0 || digits > LINE_NUMBER_DIGITS_MAX || peek(cursor) === ".")
    cursor.problem = problem(
      "illegal_line_number",
      `A line number has one to ${LINE_NUMBER_DIGITS_MAX} digits and nothing else.`,
      { digits },
    );
}

function readComment(cursor: Cursor, doubts: Problem[]): void {
  const end = cursor.text.indexOf(")", cursor.at);
  const inside = cursor.text.slice(cursor.at + 1, end < 0 ? undefined : end);
  if (inside.includes("("))
    cursor.problem = problem("illegal_comment", "A comment may not hold another comment.");
  else if (end < 0) cursor.problem = problem("illegal_comment", "A comment must be closed on its own line.");
  else if (!/^[\t\x20-\x7e]*$/.test(inside))
    doubts.push(
      doubt("illegal_comment", "A comment holds characters beyond ASCII; some controllers stop there."),
    );
  cursor.at = end + 1;
}

function readSetting(cursor: Cursor, parameters: Parameters, settings: [number, number][]): void {
  const index = readParameterIndex(cursor, parameters);
  if (cursor.problem !== null) return;
  if (peek(cursor) !== "=") {
    cursor.problem = problem("illegal_parameter", `Expected "=" after parameter #${index}.`);
    return;
  }
  cursor.at++;
  const value = readValue(cursor, parameters);
  if (cursor.problem === null) settings.push([index, value]);
}
