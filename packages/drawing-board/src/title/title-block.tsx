import type { JSX } from "preact";
import type { SheetProps } from "../state/sheet-props.ts";
import { verdictOf } from "./verdict.ts";

/** The sheet's lower right corner, from which the board is worked. */
export function TitleBlock({ board, title }: SheetProps & { readonly title: string }): JSX.Element {
  const verdict = verdictOf(board);
  return (
    <footer class="title-block">
      <p class="verdict" role="status">
        {verdict.sentence}
      </p>
      <p>{title}</p>
    </footer>
  );
}
