import type { JSX } from "preact";
import { rememberIntroduced } from "./state/keep.ts";
import type { SheetProps } from "./state/sheet-props.ts";

/** A slip of paper for the first visit: what this is, in a minute. */
export function Introduction({ set }: Pick<SheetProps, "set">): JSX.Element {
  const close = (): void => {
    rememberIntroduced();
    set((board) => ({ ...board, introduced: true }));
  };
  return (
    <aside class="slip" aria-labelledby="slip-title">
      <h2 id="slip-title">This drawing is the form</h2>
      <ol>
        <li>
          An underlined figure is yours to change: click it, type <kbd>540</kbd> or <kbd>21 1/4 in</kbd>,
          press Enter. Figures in brackets follow; point at one and it shows its sum.
        </li>
        <li>Drag a round handle to bend the crest or to raise a foot. Undo takes any step back.</li>
        <li>A numbered balloon is something to know. The notes say what it is and the way out.</li>
        <li>
          After each change the parts are nested, the router's programs written, and what they would cut is
          measured and stood up. The title block, lower right, says whether that is proved. Then take it away.
        </li>
      </ol>
      <button type="button" class="lettered" onClick={close}>
        put the slip away
      </button>
    </aside>
  );
}
