import type { JSX } from "preact";
import type { Note } from "./notes-of.ts";

/** A number in a circle: filled for an error, ringed for a warning, plain for a note. */
export function Balloon({ note }: { readonly note: Note }): JSX.Element {
  return (
    <span class={`balloon ${note.severity}`} role="img" aria-label={`${note.severity} ${note.number}`}>
      {note.number}
    </span>
  );
}
