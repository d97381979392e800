import type { Point } from "@dryfit/geometry";
import { type Shown, screwsOf } from "@dryfit/job";
import type { JSX } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import { figureText } from "../figures/figure-text.ts";
import { Balloon } from "../notes/balloon.tsx";
import { notesOf } from "../notes/notes-of.ts";
import { isStale, workOf } from "../state/board-state.ts";
import { change, refuse } from "../state/edit.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { turnTo } from "../state/sheet-props.ts";
import { lengthForFile, type TypedIn } from "../state/type-in.ts";
import { LaidSheet } from "./laid-sheet.tsx";
import { type Place, placesOf, withLock, withoutLocks } from "./place.ts";
import { PlacesTable } from "./places-table.tsx";
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

  /** The design with the part locked there; refused where the file may not say so. */
  const putting = (place: Place): TypedIn => {
    if (!design) return { ok: false, why: CANNOT };
    const sheet = shown.layout.sheets[place.sheet - 1];
    const put = { ...place, size: sheet?.stock.id ?? place.size };
    const text = withLock(workOf(board).text, design.sheet, places, put, (mm) => lengthForFile(mm, board));
    if (text === null) return { ok: false, why: CANNOT };
    return { ok: true, change: text === workOf(board).text ? null : change({ text }) };
  };
  const put = (place: Place): void => {
    const typed = putting(place);
    if (!typed.ok) set(refuse(typed.why));
    else if (typed.change) set(typed.change);
  };
  const free = (parts: readonly string[]): void => {
    const text = design && withoutLocks(workOf(board).text, design.sheet.locked, parts);
    set(text === null ? refuse(CANNOT) : change({ text }));
  };
  const lockAll = (): void => {
    const text = !design
      ? null
      : places
          .filter(({ isLocked }) => !isLocked)
          .reduce<string | null>(
            (now, place) =>
              now && withLock(now, design.sheet, places, place, (mm) => lengthForFile(mm, board)),
            workOf(board).text,
          );
    set(text === null ? refuse(CANNOT) : change({ text }));
  };

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
              <Facts
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

const CANNOT = "The design file has to be mended before parts can be locked in it.";
const NO_SCREWS: readonly Point<"sheet">[] = [];

/** Found after the sheet has been drawn: they take a moment. */
function useScrews(shown: Shown): ReturnType<typeof screwsOf> | null {
  const [found, setFound] = useState<{
    readonly of: Shown;
    readonly screws: ReturnType<typeof screwsOf>;
  } | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setFound({ of: shown, screws: screwsOf(shown) }), 50);
    return () => clearTimeout(timer);
  }, [shown]);
  return found?.of === shown ? found.screws : null;
}

function Facts({
  board,
  set,
  shown,
  sheet,
  screws,
}: SheetProps & {
  readonly shown: Shown;
  readonly sheet: Shown["layout"]["sheets"][number];
  readonly screws: readonly Point<"sheet">[] | null;
}): JSX.Element {
  const length = (mm: number): string => figureText(mm, "length", board.units);
  const programs = shown.programs.filter((program) => program.sheet === sheet.id);
  const tabs = programs.reduce((sum, program) => sum + program.tabs.length, 0);
  const skin = programs.find((program) => program.skin !== null)?.skin ?? null;
  const offcuts = shown.offcuts.filter((offcut) => offcut.sheet === sheet.id);
  return (
    <table class="table">
      <caption>{sheet.id}</caption>
      <tbody>
        <tr>
          <th scope="row">size</th>
          <td>
            {length(sheet.stock.size[0])} × {length(sheet.stock.size[1])}, grain along {sheet.stock.grain}
          </td>
        </tr>
        <tr>
          <th scope="row">used</th>
          <td>{((shown.yields[sheet.id] ?? 0) * 100).toFixed(0)} % lies in parts</td>
        </tr>
        <tr>
          <th scope="row">to keep</th>
          <td>
            {offcuts.length === 0
              ? "no rest worth keeping"
              : offcuts.map(({ w, h }) => `${length(w)} × ${length(h)}`).join(", ")}
          </td>
        </tr>
        <tr>
          <th scope="row">held by</th>
          <td>{heldBy(tabs, skin === null ? null : length(skin), screws)}</td>
        </tr>
        <tr>
          <th scope="row">programs</th>
          <td>
            <span class="row">
              {programs.length === 0 && "none yet"}
              {programs.map(({ file, minutes }) => (
                <button key={file} type="button" class="lettered" onClick={() => set(turnTo("cut", file))}>
                  {file}, {minutes.toFixed(0)} min
                </button>
              ))}
            </span>
          </td>
        </tr>
      </tbody>
    </table>
  );
}

function heldBy(tabs: number, skin: string | null, screws: readonly Point<"sheet">[] | null): string {
  const parts = [
    ...(tabs > 0 ? [`${tabs} tabs`] : []),
    ...(skin === null ? [] : [`a skin of ${skin}`]),
    ...(screws === null
      ? []
      : screws.length === 0
        ? ["no waste is wide enough for screws: use clamps or tape"]
        : [`${screws.length} places for screws`]),
  ];
  return parts.join(", ") || "…";
}

/** The sheet once more, drawn from the files that a machine and a service read. */
function AsWritten({
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
