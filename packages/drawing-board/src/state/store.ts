import type { BoardState } from "./board-state.ts";

export type Change = (board: BoardState) => BoardState;

/** The one place that changes: the board of now, and who wants to hear of the next. */
export interface Store {
  readonly get: () => BoardState;
  readonly set: (change: Change) => void;
  readonly subscribe: (listener: (board: BoardState, before: BoardState) => void) => () => void;
}

export function createStore(first: BoardState): Store {
  let board = first;
  const listeners = new Set<(board: BoardState, before: BoardState) => void>();
  return {
    get: () => board,
    set(change) {
      const before = board;
      board = change(board);
      if (board !== before) for (const listener of [...listeners]) listener(board, before);
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
