import type { Point } from "@dryfit/geometry";
import type { Shown } from "@dryfit/job";
import type { JSX } from "preact";
import { useMemo, useState } from "preact/hooks";
import { Balloon } from "../notes/balloon.tsx";
import { notesOf } from "../notes/notes-of.ts";
import { isStale } from "../state/board-state.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { AsWritten } from "./as-written.tsx";
import { LaidSheet } from "./laid-sheet.tsx";
import { lockingOf } from "./locking.ts";
import { placesOf } from "./place.ts";
import { PlacesTable } from "./places-table.tsx";
import { SheetFacts } from "./sheet-facts.tsx";
import { useScrews } from "./use-screws.ts";
import "./sheets.css";

/** The sheets as they will be cut: parts as nested, there to be moved and locked, and what is left of the wood. */
export function SheetsSheet({ board, set }: SheetProps): JSX.Element {
  const shown = board.made?.made.shown;
  if (!shown || shown.layout.sheets.length === 0)
    return (
      <p class="waiting">{board.run.at === "making" ? "The parts are being laid on sheets…" : NOTHING}</p>
    );
  return <Laid board={board} set={set} shown={shown} />;
}

const NOTHING = "There are no sheets: the notes on Case say what is to be mended first.";

function Laid({ board, set, shown }: SheetProps & { readonly shown: Shown }): JSX.Element {
  const { design } = board.drawn;
  const places = useMemo(() => placesOf(shown, design), [shown, design]);
  const screws = useScrews(shown);
  const [chosen, setChosen] = useState<string | null>(null);
  const stale = isStale(board);
  const notes = notesOf(board).filter(
    ({ path, severity }) => severity === "error" || path.startsWith("sheet.locked"),
  );
  const told = notes.filter(({ path }) => path.startsWith("sheet.locked")).map(({ message }) => message);
  const amiss = new Set(
    (design?.sheet.locked ?? [])
      .map(({ part }) => part)
      .filter((part) => told.some((message) => message.split(" ").includes(part))),
  );

  const { putting, put, free, lockAll } = lockingOf({ board, set }, shown, places);

  const placesTable = (
    <div>
      <PlacesTable
        board={board}
        set={set}
        shown={shown}
        places={places}
        chosen={chosen}
        putting={putting}
        onPut={put}
        onFree={(part) => free([part])}
      />
      <p class="row">
        <button
          type="button"
          class="lettered"
          disabled={places.every(({ isLocked }) => isLocked)}
          onClick={lockAll}
        >
          lock all as they lie
        </button>
        <button
          type="button"
          class="lettered"
          disabled={!places.some(({ isLocked }) => isLocked)}
          onClick={() => free(design?.sheet.locked.map(({ part }) => part) ?? [])}
        >
          free all
        </button>
      </p>
    </div>
  );
  return (
    <div class="sheets-sheet">
      {/* Said all the time, so that nothing jumps under a hand that moves parts. */}
      <p role="status" class="laid-state">
        {stale
          ? "The rest is being nested round what was put; programs and proof follow."
          : "Drag a part, or push it with the arrow keys: it stays there, and the rest nests round it."}
      </p>
      {notes.length > 0 && !stale && (
        <ul class="laid-notes">
          {notes.map((note) => (
            <li key={note.number}>
              <Balloon note={note} />
              <span>
                {note.message} {note.wayOut}
              </span>
            </li>
          ))}
        </ul>
      )}
      {shown.layout.sheets.map((sheet, i) => (
        <section key={sheet.id} class={stale ? "older-parts" : ""} aria-label={sheet.id}>
          <LaidSheet
            board={board}
            set={set}
            shown={shown}
            sheet={sheet}
            places={places}
            screws={screws?.[sheet.id] ?? NO_SCREWS}
            chosen={chosen}
            amiss={amiss}
            isStale={stale}
            onChoose={setChosen}
            onPut={put}
            onFree={(part) => free([part])}
          />
          <div class="beside">
            <div>
              <SheetFacts
                board={board}
                set={set}
                shown={shown}
                sheet={sheet}
                screws={screws?.[sheet.id] ?? null}
              />
              <AsWritten board={board} sheet={sheet.id} />
            </div>
            {i === shown.layout.sheets.length - 1 && placesTable}
          </div>
        </section>
      ))}
    </div>
  );
}

const NO_SCREWS: readonly Point<"sheet">[] = [];
