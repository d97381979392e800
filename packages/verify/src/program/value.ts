import { type Problem, problem } from "./problem.ts";

/** Where a line is being read. Spaces count for nothing outside comments (NISTIR 6556, 3.3.2). */
export interface Cursor {
  readonly text: string;
  at: number;
  problem: Problem | null;
}

/** Numbered values; those never set read as 0. */
export type Parameters = ReadonlyMap<number, number>;

const PARAMETER_COUNT = 5400;

/**
 * A real value: number, parameter, expression in brackets, or function (NISTIR 6556, 3.3.2.3).
 * NaN, with `cursor.problem` set, where there is none.
 */
export function readValue(cursor: Cursor, parameters: Parameters): number {
  const c = peek(cursor);
  if (c === "[") return readExpression(cursor, parameters);
  if (c === "#") return readParameter(cursor, parameters);
  if (isLetter(c)) return readFunction(cursor, parameters);
  return readNumber(cursor);
}

/** `#` and the number of a parameter, which may itself be a value. */
export function readParameterIndex(cursor: Cursor, parameters: Parameters): number {
  cursor.at++;
  const index = readValue(cursor, parameters);
  if (cursor.problem !== null) return Number.NaN;
  const whole = Math.round(index);
  if (Math.abs(index - whole) > WHOLE || whole < 1 || whole >= PARAMETER_COUNT)
    return fail(cursor, problem("illegal_parameter", `No parameter has the number ${index}.`, { index }));
  return whole;
}

/** How far a value may be from the integer that a field wants (NISTIR 6556, 3.3.2.1). */
export const WHOLE = 0.0001;

/** The next character that is not a space, lower case; "" at the end. The cursor stands on it. */
export function peek(cursor: Cursor): string {
  const { text } = cursor;
  let code = text.charCodeAt(cursor.at);
  while (code === 32 || code === 9) code = text.charCodeAt(++cursor.at);
  if (Number.isNaN(code)) return "";
  if (code >= 65 && code <= 90) code += 32;
  return String.fromCharCode(code);
}

export function isLetter(c: string): boolean {
  return c >= "a" && c <= "z";
}

function readNumber(cursor: Cursor): number {
  const { text } = cursor;
  peek(cursor);
  const start = cursor.at;
  let digits = 0;
  let points = 0;
  let spaces = false;
  let at = start;
  for (; ; at++) {
    const code = text.charCodeAt(at);
    if (code >= 48 && code <= 57) digits++;
    else if (code === 46 && points === 0) points++;
    else if (code === 32 || code === 9) spaces = true;
    else if (!((code === 43 || code === 45) && at === start)) break;
  }
  cursor.at = at;
  if (digits === 0) {
    const found = text.slice(start, start + 8).trim();
    return fail(
      cursor,
      problem(
        "illegal_number",
        found === "" ? "A number is missing at the end of the line." : `Expected a number, found "${found}".`,
      ),
    );
  }
  const word = text.slice(start, at);
  return Number(spaces ? word.replace(/[ \t]+/g, "") : word);
}

function readParameter(cursor: Cursor, parameters: Parameters): number {
  const index = readParameterIndex(cursor, parameters);
  return cursor.problem === null ? (parameters.get(index) ?? 0) : Number.NaN;
}

type Operation = readonly [rank: number, (a: number, b: number) => number];
const truth = (yes: boolean) => (yes ? 1 : 0);

/** Ranked as NISTIR 6556, 3.3.2.3.1: power first, then products, then sums and logic; equals from left to right. */
const OPERATIONS: Readonly<Record<string, Operation>> = {
  "**": [3, (a, b) => a ** b],
  "*": [2, (a, b) => a * b],
  "/": [2, (a, b) => a / b],
  mod: [2, (a, b) => (b === 0 ? Number.NaN : a - b * Math.floor(a / b))],
  "+": [1, (a, b) => a + b],
  "-": [1, (a, b) => a - b],
  and: [1, (a, b) => truth(a !== 0 && b !== 0)],
  or: [1, (a, b) => truth(a !== 0 || b !== 0)],
  xor: [1, (a, b) => truth((a !== 0) !== (b !== 0))],
};

function readExpression(cursor: Cursor, parameters: Parameters): number {
  cursor.at++;
  const value = readTerms(cursor, parameters, 1);
  if (cursor.problem !== null) return Number.NaN;
  if (peek(cursor) !== "]")
    return fail(cursor, problem("illegal_expression", "An expression lacks its closing bracket."));
  cursor.at++;
  return finite(cursor, value);
}

function readTerms(cursor: Cursor, parameters: Parameters, rank: number): number {
  let left = rank > 3 ? readValue(cursor, parameters) : readTerms(cursor, parameters, rank + 1);
  while (rank <= 3 && cursor.problem === null) {
    const name = operationAt(cursor);
    const operation = OPERATIONS[name];
    if (operation === undefined || operation[0] !== rank) break;
    skip(cursor, name.length);
    left = operation[1](left, readTerms(cursor, parameters, rank + 1));
  }
  return left;
}

function operationAt(cursor: Cursor): string {
  const c = peek(cursor);
  if (!isLetter(c)) return c === "*" && letters(cursor, 2) === "**" ? "**" : c;
  return c === "o" ? letters(cursor, 2) : letters(cursor, 3);
}

const degrees = (radians: number) => (radians * 180) / Math.PI;
const radians = (degree: number) => (degree * Math.PI) / 180;

/** Angles in degrees (NISTIR 6556, 3.3.2.4); FIX and FUP round down and up. ATAN takes two values and stands apart. */
const FUNCTIONS: Readonly<Record<string, (value: number) => number>> = {
  abs: Math.abs,
  acos: (v) => degrees(Math.acos(v)),
  asin: (v) => degrees(Math.asin(v)),
  cos: (v) => Math.cos(radians(v)),
  exp: Math.exp,
  fix: Math.floor,
  fup: Math.ceil,
  ln: Math.log,
  round: Math.round,
  sin: (v) => Math.sin(radians(v)),
  sqrt: Math.sqrt,
  tan: (v) => Math.tan(radians(v)),
};

function readFunction(cursor: Cursor, parameters: Parameters): number {
  peek(cursor);
  const name = ["atan", ...Object.keys(FUNCTIONS)].find((each) => letters(cursor, each.length) === each);
  if (name === undefined)
    return fail(
      cursor,
      problem("illegal_number", `Expected a number, found "${letters(cursor, 1)}" instead.`),
    );
  skip(cursor, name.length);
  if (peek(cursor) !== "[")
    return fail(cursor, problem("illegal_expression", `${name.toUpperCase()} needs a value in brackets.`));
  const first = readExpression(cursor, parameters);
  if (cursor.problem !== null) return Number.NaN;
  if (name !== "atan") return finite(cursor, FUNCTIONS[name]!(first));
  if (peek(cursor) !== "/")
    return fail(cursor, problem("illegal_expression", "ATAN needs two values: ATAN[a]/[b]."));
  cursor.at++;
  if (peek(cursor) !== "[")
    return fail(cursor, problem("illegal_expression", "ATAN needs two values: ATAN[a]/[b]."));
  return degrees(Math.atan2(first, readExpression(cursor, parameters)));
}

function finite(cursor: Cursor, value: number): number {
  return Number.isFinite(value)
    ? value
    : fail(cursor, problem("illegal_expression", "An expression has no finite value."));
}

/** The next `count` characters without spaces, lower case; the cursor stays. */
function letters(cursor: Cursor, count: number): string {
  let found = "";
  for (let at = cursor.at; found.length < count && at < cursor.text.length; at++) {
    const c = cursor.text[at]!;
    if (c !== " " && c !== "\t") found += c.toLowerCase();
  }
  return found;
}

function skip(cursor: Cursor, count: number): void {
  for (let left = count; left > 0; left--) {
    peek(cursor);
    cursor.at++;
  }
}

function fail(cursor: Cursor, found: Problem): number {
  cursor.problem ??= found;
  return Number.NaN;
}
