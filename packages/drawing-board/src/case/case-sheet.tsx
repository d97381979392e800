import type { JSX } from "preact";
import { useMemo, useRef } from "preact/hooks";
import { useWidthMm } from "../measure.ts";
import { NotesList } from "../notes/notes-list.tsx";
import { notesOf } from "../notes/notes-of.ts";
import { type Pin, pinsOn } from "../notes/pins.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { caseViews } from "./case-views.ts";
import { Figures } from "./figures.tsx";
import { View } from "./view.tsx";
import type { ViewSpec } from "./view-spec.ts";

/** Elevation, section and plan; the notes stand where the plan leaves room. */
const BEFORE_NOTES = 3;

const NO_PINS: readonly Pin[] = [];

/** The working drawing of the case, which is the form. */
export function CaseSheet({ board, set }: SheetProps): JSX.Element {
  const paper = useRef<HTMLDivElement>(null);
  const width = useWidthMm(paper);
  const { drawable } = board;
  const views = useMemo(
    () => (drawable && width !== null ? caseViews(drawable, width) : []),
    [drawable, width],
  );
  const notes = notesOf(board);
  const pins = useMemo(() => pinsOn(views, notes), [views, notes]);
  const viewOn = (view: ViewSpec): JSX.Element => (
    <View key={view.id} view={view} pins={pins.get(view.id) ?? NO_PINS} board={board} set={set} />
  );
  const isLeftOver = drawable !== null && board.drawn.assembly !== drawable.assembly;
  return (
    <div class="case-sheet" ref={paper}>
      {isLeftOver && (
        <p class="left-over" role="status">
          Drawn is the last design that could be drawn. Mend what the notes say, or take the step back.
        </p>
      )}
      {views.slice(0, BEFORE_NOTES).map(viewOn)}
      <NotesList notes={notes} set={set} />
      {views.slice(BEFORE_NOTES).map(viewOn)}
      <Figures board={board} set={set} />
    </div>
  );
}
