import { mmPerInch, type Plain, parseLength, type Units } from "@dryfit/joinery";
import type { Measure } from "../case/view-spec.ts";
import { type BoardState, workOf } from "./board-state.ts";
import { readWork } from "./drawn.ts";
import { changeRead, edited } from "./edit.ts";
import type { Change } from "./store.ts";

export type TypedIn =
  | { readonly ok: true; readonly change: Change | null }
  | { readonly ok: false; readonly why: string };

/**
 * What typing on a figure comes to: a change of the design, none where it says the same, or why it cannot be.
 * A value that the design file may not hold is refused here, so that the drawing never becomes unreadable.
 */
export function typeIn(
  board: BoardState,
  path: string,
  measure: Measure,
  text: string,
  now: number,
): TypedIn {
  const value = valueIn(text, measure, board.units, board.drawn.design?.units ?? "mm");
  if (value === null) return { ok: false, why: WANTED[measure] };
  if (Math.abs(value.mm - now) < SAME) return { ok: true, change: null };
  return setIn(board, path, value.written);
}

/** Sets a value as it is, as long as the design file may hold it. */
export function setIn(board: BoardState, path: string, value: Plain): TypedIn {
  const work = workOf(board);
  const text = edited(work.text, [{ path, value }]);
  if (text === null) return { ok: false, why: "The design file has to be mended first." };
  const read = readWork({ text, file: work.file });
  const problems = read.ok ? [] : read.problems;
  const wasReadable = board.drawn.problems.length === 0;
  const problem =
    problems.find((each) => each.path.startsWith(path)) ?? (wasReadable ? problems[0] : undefined);
  if (problem) return { ok: false, why: `Allowed: ${problem.allowed}.` };
  return { ok: true, change: changeRead(text, read, work.text, { path, value }) };
}

/** A length as the file writes it, in its own units to what a rule can show. */
export function lengthForFile(mm: number, { drawn }: BoardState): number {
  return drawn.design?.units === "in" ? Number((mm / mmPerInch).toFixed(4)) : Number(mm.toFixed(3));
}

export interface Value {
  readonly mm: number;
  /** As it will stand in the file. */
  readonly written: Plain;
}

/** A bare number counts in the units shown; the file gets the unit written out where its own are others. */
export function valueIn(text: string, measure: Measure, shown: Units, filed: Units): Value | null {
  const said = text.trim();
  if (measure !== "length") {
    const plain = said.replace(/\s*(°|deg|degrees)$/i, "").replace(",", ".");
    const number = Number(plain);
    return plain === "" || !Number.isFinite(number) ? null : { mm: number, written: number };
  }
  const point = said.replace(/^([+-]?\d+),(\d+)/, "$1.$2");
  const mm = parseLength(point, shown);
  if (mm === null) return null;
  const isBare = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(point);
  const hasUnit = /[a-z"″]\s*$/i.test(point);
  if (hasUnit) return { mm, written: point };
  if (shown !== filed) return { mm, written: `${point} ${shown}` };
  return { mm, written: isBare ? Number(point) : point };
}

export const WANTED: Readonly<Record<Measure, string>> = {
  length: "A length is wanted: 540, 12.7 mm or 1/2 in.",
  angle: "An angle is wanted, in degrees: 60.",
  count: "A whole number is wanted: 3.",
};

/** mm or degrees: closer than this is the same figure typed again. */
const SAME = 1e-6;
