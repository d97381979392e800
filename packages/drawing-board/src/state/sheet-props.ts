import type { BoardState, SheetName } from "./board-state.ts";
import type { Change } from "./store.ts";

/** What every sheet on the board is drawn from, and how it asks for changes. */
export interface SheetProps {
  readonly board: BoardState;
  readonly set: (change: Change) => void;
}

/** Turns to a sheet, and there to a place where one is named. */
export function turnTo(sheet: SheetName, lookAt: string | null = null): Change {
  return (board) => ({ ...board, turnedTo: sheet, lookAt });
}
