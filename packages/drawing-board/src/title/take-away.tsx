import type { JSX } from "preact";
import { isStale } from "../state/board-state.ts";
import { refuse, say } from "../state/edit.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { download } from "./save.ts";
import { zipOf } from "./zip.ts";

/** The folder that `dryfit make` writes, as one zip; only what is proved leaves the board. */
export function TakeAway({ board, set }: SheetProps): JSX.Element {
  const isMade = !isStale(board) && board.made?.made.outcome === "made";
  const takeAway = (): void => {
    if (!isMade) {
      set(refuse("Nothing to take away yet: only what is proved leaves the board."));
      return;
    }
    const { files, job } = board.made!.made;
    download(`${job!.name}.zip`, zipOf(files), "application/zip");
    set(say(`${files.length} files for ${job!.name} are in ${job!.name}.zip, revision ${job!.revision}.`));
  };
  return (
    <button
      type="button"
      class="take-away"
      aria-disabled={!isMade}
      title={
        isMade ? "Sheets, programs and papers as dryfit make writes them, in one zip" : "Once it is proved"
      }
      onClick={takeAway}
    >
      take away
    </button>
  );
}
