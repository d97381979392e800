import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { isStale } from "../state/board-state.ts";
import type { SheetProps } from "../state/sheet-props.ts";

/** The sheet once more, drawn from the files that a machine and a service read. */
export function AsWritten({
  board,
  sheet,
}: Pick<SheetProps, "board"> & { readonly sheet: string }): JSX.Element | null {
  const [isOpen, setOpen] = useState(false);
  const svg = board.made?.made.files.find(({ file }) => file === `preview/${sheet}.svg`)?.text;
  if (!svg || isStale(board)) return null;
  return (
    <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{sheet} as its files say: drawing and cutter's way, read back</summary>
      {/* It was drawn by this page's own worker: every text in it is escaped. */}
      {isOpen && <div class="preview" dangerouslySetInnerHTML={{ __html: svg }} />}
    </details>
  );
}
