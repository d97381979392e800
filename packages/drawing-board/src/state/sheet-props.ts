import type { BoardState, SheetName } from "./board-state.ts";
import type { Change } from "./store.ts";

/** What every sheet on the board is drawn from, and how it asks for changes. */
export interface SheetProps {
  readonly board: BoardState;
  readonly set: (change: Change) => void;
}

/** The board of this moment, for what was drawn from an earlier one that looked the same. */
export function latest(set: SheetProps["set"]): BoardState {
  let board: BoardState | undefined;
  set((now) => {
    board = now;
    return now;
  });
  return board!;
}

/** Turns to a sheet, and there to a place where one is named. */
export function turnTo(sheet: SheetName, lookAt: string | null = null): Change {
  return (board) => ({ ...board, turnedTo: sheet, lookAt });
}
