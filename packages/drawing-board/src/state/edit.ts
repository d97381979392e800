import { type Design, type Plain, type Read, withValue } from "@dryfit/joinery";
import type { BoardState } from "./board-state.ts";
import { draw, drawableOf } from "./drawn.ts";
import type { Change } from "./store.ts";
import { advanced, type History, redone, undone, type Work } from "./work.ts";

/** One value of the design, and what it becomes. */
export interface Edit {
  readonly path: string;
  readonly value: Plain;
}

/** The text with the edits made; null where it cannot be edited. */
export function edited(text: string, edits: readonly Edit[]): string | null {
  return edits.reduce<string | null>(
    (now, { path, value }) => (now === null ? null : withValue(now, path, value)),
    text,
  );
}

/** Makes the edits: one step that can be undone. */
export function edit(...edits: readonly Edit[]): Change {
  return (board) => {
    const text = edited(board.history.now.text, edits);
    return text === null ? told(board, CANNOT_EDIT) : moved(board, { text });
  };
}

/** Takes over other work: another text, another gear list, another file. */
export function change(next: Partial<Work>): Change {
  return (board) => moved(board, next);
}

/** The same for a text that has been read already; what someone else changed meanwhile is not lost. */
export function changeRead(
  text: string,
  read: Read<Design>,
  from: string,
  ...edits: readonly Edit[]
): Change {
  return (board) => {
    if (board.history.now.text !== from) return edit(...edits)(board);
    return travelled(board, advanced(board.history, { ...board.history.now, text }), read);
  };
}

/** Shows what the edits would come to, without making them. */
export function preview(...edits: readonly Edit[]): Change {
  return (board) => {
    const text = edited(board.history.now.text, edits);
    return text === null ? board : redrawn(board, { ...board.history.now, text });
  };
}

/** Back to what is, after a preview. */
export const unpreview: Change = (board) => redrawn(board, board.history.now);

/** Makes the same once more. */
export const tryAgain: Change = (board) => ({ ...board, tries: board.tries + 1 });

export const undo: Change = (board) => travelled(board, undone(board.history));
export const redo: Change = (board) => travelled(board, redone(board.history));

export function say(text: string): Change {
  return (board) => ({ ...board, notice: { kind: "said", text } });
}

export function refuse(text: string): Change {
  return (board) => told(board, text);
}

export const quiet: Change = (board) => (board.notice ? { ...board, notice: null } : board);

const CANNOT_EDIT = "The design file has to be mended before its figures can be changed on the drawing.";

function told(board: BoardState, text: string): BoardState {
  return { ...board, notice: { kind: "refused", text } };
}

function moved(board: BoardState, next: Partial<Work>): BoardState {
  return travelled(board, advanced(board.history, { ...board.history.now, ...next }));
}

function travelled(board: BoardState, history: History, read?: Read<Design>): BoardState {
  if (history === board.history) return redrawn(board, history.now, read);
  return redrawn({ ...board, history, notice: null }, history.now, read);
}

function redrawn(board: BoardState, work: Work, read?: Read<Design>): BoardState {
  const { text, file, drawings } = board.drawn;
  if (text === work.text && file === work.file && drawings === work.drawings) return board;
  const drawn = draw(work, read);
  return { ...board, drawn, drawable: drawableOf(drawn) ?? board.drawable };
}
