import { once } from "@dryfit/geometry";
import type { Finding, Severity } from "@dryfit/joinery";
import { type BoardState, isStale, type MadeOf } from "../state/board-state.ts";
import type { Drawn } from "../state/drawn.ts";

/** A finding as it stands on the sheet: numbered, so that a balloon can name it. */
export interface Note {
  readonly number: number;
  readonly severity: Severity;
  readonly path: string;
  readonly message: string;
  readonly wayOut: string | null;
  /** The place in the design file, where it has one: "line 12". */
  readonly where: string | null;
}

/** All that is to be said of the board's design now, errors first: from the drawing at once, from the proof when it is fresh. */
export function notesOf(board: BoardState): readonly Note[] {
  const { drawn, made } = board;
  return isStale(board) ? notesOfDrawn(drawn) : notesOfMade(made!)(drawn);
}

const notesOfDrawn = once((drawn: Drawn) => numbered(drawn, drawn.findings));
const notesOfMade = once((made: MadeOf) => once((drawn: Drawn) => numbered(drawn, made.made.findings)));

function numbered(drawn: Drawn, told: readonly Finding[]): readonly Note[] {
  const unread = drawn.problems.map(({ path, found, allowed, line }) => ({
    severity: "error" as const,
    path,
    message: `${path === "" ? "The file" : path}: found ${found}.`,
    wayOut: `Allowed: ${allowed}.`,
    where: `line ${line}`,
  }));
  const findings = told
    .filter(({ code }) => code !== "unreadable")
    .map(({ severity, path, message, wayOut }) => ({
      severity,
      path,
      message,
      wayOut: wayOut ?? null,
      where: null,
    }));
  return [...unread, ...findings]
    .sort((a, b) => ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity))
    .map((note, i) => ({ ...note, number: i + 1 }));
}

/** How many of each, in words: "1 error, 2 warnings". */
export function countWords(notes: readonly Note[]): string {
  const counts = ORDER.flatMap((severity) => {
    const count = notes.filter((note) => note.severity === severity).length;
    return count === 0 ? [] : [`${count} ${severity}${count === 1 ? "" : "s"}`];
  });
  return counts.length === 0 ? "nothing to say" : counts.join(", ");
}

const ORDER: readonly Severity[] = ["error", "warning", "note"];
