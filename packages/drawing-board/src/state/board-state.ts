import type { Made, OutFile } from "@dryfit/job";
import type { Units } from "@dryfit/joinery";
import { type Drawable, type Drawn, draw, drawableOf } from "./drawn.ts";
import { type History, historyOf, type Work } from "./work.ts";

export const SHEET_NAMES = ["case", "gear", "sheets", "cut", "stand-up", "papers"] as const;

export type SheetName = (typeof SHEET_NAMES)[number];

/** How far the newest run has come. */
type Run =
  | { readonly at: "none" }
  | { readonly at: "making"; readonly run: number; readonly stage: string }
  | { readonly at: "made"; readonly run: number; readonly ms: number }
  | { readonly at: "failed"; readonly run: number; readonly why: string };

/** What a run brought, and of which text and drawings. It stays on the board until the next has come to its end. */
export interface MadeOf {
  readonly text: string;
  readonly drawings: Work["drawings"];
  readonly made: Made;
}

/** A sentence for the person at the board; `retreat` offers to take the last step back. */
interface Notice {
  readonly kind: "said" | "refused";
  readonly text: string;
}

/** Where the design is kept beside the browser: a file that `dryfit board` serves. */
export interface Served {
  readonly file: string;
  /** Where to put the text; carries the token. */
  readonly url: string;
}

/** Everything that is on the board. Immutable; each change is a new one. */
export interface BoardState {
  readonly history: History;
  /** The text that is drawn: the work's, or while a handle is dragged, the one it would become. */
  readonly drawn: Drawn;
  readonly drawable: Drawable | null;
  readonly run: Run;
  /** How often someone asked to make the same once more, after a run that failed. */
  readonly tries: number;
  readonly made: MadeOf | null;
  readonly turnedTo: SheetName;
  /** What lengths are shown and typed in; the design file keeps its own. */
  readonly units: Units;
  readonly notice: Notice | null;
  readonly introduced: boolean;
  readonly served: Served | null;
  /** The text as it was last written to a file; null: never. */
  readonly saved: string | null;
  /** Program and drawing files that were dropped on the page, newest first. */
  readonly dropped: readonly OutFile[];
  /** A place on some sheet that a link elsewhere asked to see: "sheet-1-a-1.nc:120", "inside.width". */
  readonly lookAt: string | null;
}

export function boardOf(work: Work, options: Partial<BoardState> = {}): BoardState {
  const drawn = draw(work);
  return {
    history: historyOf(work),
    drawn,
    drawable: drawableOf(drawn),
    run: { at: "none" },
    tries: 0,
    made: null,
    turnedTo: "case",
    units: drawn.design?.units ?? "mm",
    notice: null,
    introduced: true,
    served: null,
    saved: null,
    dropped: [],
    lookAt: null,
    ...options,
  };
}

export function workOf({ history }: BoardState): Work {
  return history.now;
}

/** Whether two boards draw the same design with the same units: what hangs on these alone need not be drawn again. */
export function sameDesign(a: BoardState, b: BoardState): boolean {
  return (
    a.drawable === b.drawable && a.drawn === b.drawn && a.history.now === b.history.now && a.units === b.units
  );
}

/** True while what the worker brought is of an older text than the one on the board. */
export function isStale(board: BoardState): boolean {
  const { text, drawings } = workOf(board);
  return board.made === null || board.made.text !== text || board.made.drawings !== drawings;
}
