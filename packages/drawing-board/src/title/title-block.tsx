import type { JSX } from "preact";
import { TextField } from "../figures/text-field.tsx";
import { countWords, notesOf } from "../notes/notes-of.ts";
import { SHEET_NAMES } from "../state/board-state.ts";
import { redo, tryAgain, undo } from "../state/edit.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { Files } from "./files.tsx";
import { TakeAway } from "./take-away.tsx";
import { type BoardVerdict, verdictOf } from "./verdict.ts";

/** The sheet's lower right corner (ISO 7200), from which the board is worked: the verdict first. */
export function TitleBlock({ board, set, title }: SheetProps & { readonly title: string }): JSX.Element {
  const verdict = verdictOf(board);
  const notes = notesOf(board);
  const { design } = board.drawn;
  const { past, future } = board.history;
  const revision = board.made?.made.job?.revision;
  const showNotes = (): void => {
    set((now) => ({ ...now, turnedTo: "case" }));
    requestAnimationFrame(() => document.getElementById("notes")?.focus());
  };
  return (
    <footer class="title-block">
      <div class={`cell verdict ${verdict.mark}`}>
        <Mark mark={verdict.mark} />
        <p role="status">{verdict.sentence}</p>
        {verdict.mark === "stopped" && (
          <button type="button" class="lettered" onClick={() => set(tryAgain)}>
            try again
          </button>
        )}
        <TakeAway board={board} set={set} />
      </div>
      <div class="cell name">
        <small>name</small>
        {design ? (
          <TextField path="name" label="Name of the design" value={design.name} board={board} set={set} />
        ) : (
          <span>{board.history.now.file}</span>
        )}
      </div>
      <div class="cell">
        <small>
          sheet {SHEET_NAMES.indexOf(board.turnedTo) + 1} of {SHEET_NAMES.length}
        </small>
        <span>{title}</span>
      </div>
      <div class="cell on-screen" role="radiogroup" aria-labelledby="units-caption">
        <small id="units-caption">lengths</small>
        <span class="row">
          {(["mm", "in"] as const).map((units) => (
            <label key={units}>
              <input
                type="radio"
                name="units"
                checked={board.units === units}
                onChange={() => set((now) => ({ ...now, units }))}
              />
              {units}
            </label>
          ))}
        </span>
      </div>
      <div class="cell">
        <small>revision</small>
        <span>{revision && verdict.mark === "proved" ? revision : "not proved yet"}</span>
      </div>
      <div class="cell wide">
        <small>to know</small>
        <button type="button" class="lettered" onClick={showNotes}>
          {countWords(notes)}
        </button>
      </div>
      <div class="cell on-screen">
        <small>steps</small>
        <span class="row">
          <button type="button" class="lettered" disabled={past.length === 0} onClick={() => set(undo)}>
            undo
          </button>
          <button type="button" class="lettered" disabled={future.length === 0} onClick={() => set(redo)}>
            redo
          </button>
        </span>
      </div>
      <Files board={board} set={set} />
    </footer>
  );
}

/** A disc with a tick, a square with a cross, an open ring: told apart without colour. */
function Mark({ mark }: Pick<BoardVerdict, "mark">): JSX.Element {
  return (
    <svg class="mark" viewBox="0 0 20 20" aria-hidden="true">
      {mark === "proved" && (
        <>
          <circle class="proved" cx="10" cy="10" r="9" />
          <path d="M5.5 10.2l3 3.3l6-7" />
        </>
      )}
      {(mark === "mend" || mark === "stopped") && (
        <>
          <rect class="refused" x="1.5" y="1.5" width="17" height="17" />
          <path d="M6 6l8 8M14 6l-8 8" />
        </>
      )}
      {mark === "working" && <circle class="working" cx="10" cy="10" r="8" />}
    </svg>
  );
}
