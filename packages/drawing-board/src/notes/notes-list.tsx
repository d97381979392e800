import type { JSX } from "preact";
import type { SheetProps } from "../state/sheet-props.ts";
import { Balloon } from "./balloon.tsx";
import type { Note } from "./notes-of.ts";

/** The notes beside the drawing, each with its way out. */
export function NotesList({
  notes,
  set,
}: Pick<SheetProps, "set"> & { readonly notes: readonly Note[] }): JSX.Element {
  return (
    <section class="notes" aria-labelledby="notes-title" id="notes" tabIndex={-1}>
      <h2 id="notes-title">Notes</h2>
      {notes.length === 0 && <p>Nothing to say against it.</p>}
      <ol>
        {notes.map((note) => (
          <li key={note.number} id={`note-${note.number}`} tabIndex={-1}>
            <Balloon note={note} />
            <div>
              <p>{note.message}</p>
              {note.wayOut && <p class="way-out">{note.wayOut}</p>}
              {note.where && <p class="where">In the file: {note.where}</p>}
              <ShowPlace note={note} set={set} />
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}

/** Programs are seen on Cut; what is written on the drawing has its balloon there. */
function ShowPlace({ note, set }: Pick<SheetProps, "set"> & { readonly note: Note }): JSX.Element | null {
  if (!/\.nc(:|$)/.test(note.path)) return null;
  const look = (): void => set((board) => ({ ...board, turnedTo: "cut", lookAt: note.path }));
  return (
    <button type="button" class="lettered" onClick={look}>
      see it cut
    </button>
  );
}
