import type { JSX } from "preact";
import { workOf } from "../state/board-state.ts";
import { change } from "../state/edit.ts";
import type { SheetProps } from "../state/sheet-props.ts";

/** A change of the design's structure by a word. */
export function Act({
  board,
  set,
  words,
  label = words,
  next,
}: SheetProps & {
  readonly words: string;
  readonly label?: string;
  readonly next: (text: string) => string | null;
}): JSX.Element {
  return (
    <button
      type="button"
      class="lettered"
      aria-label={label}
      onClick={() => {
        const text = next(workOf(board).text);
        if (text !== null) set(change({ text }));
      }}
    >
      {words}
    </button>
  );
}
