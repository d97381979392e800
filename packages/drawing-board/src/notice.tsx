import type { JSX } from "preact";
import { quiet } from "./state/edit.ts";
import type { SheetProps } from "./state/sheet-props.ts";

/** What just happened, in a sentence. */
export function NoticeSlip({ board, set }: SheetProps): JSX.Element {
  const { notice } = board;
  return (
    <div class="notice-place" role="status" aria-live="polite">
      {notice && (
        <p class={`notice ${notice.kind}`}>
          {notice.text}{" "}
          <button type="button" class="lettered" onClick={() => set(quiet)}>
            put away
          </button>
        </p>
      )}
    </div>
  );
}
