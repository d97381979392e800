import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Measure } from "../case/view-spec.ts";
import type { BoardState } from "../state/board-state.ts";
import { latest, type SheetProps } from "../state/sheet-props.ts";
import type { TypedIn } from "../state/type-in.ts";
import { exactText, figureText, spokenText } from "./figure-text.ts";

interface InputProps extends SheetProps {
  /** Names the field on the page: the design's path where it has one. */
  readonly path: string;
  readonly label: string;
  readonly measure: Measure;
  readonly value: number;
  readonly typeIn: (text: string, board: BoardState) => TypedIn;
}

/** A figure to change: type, then Enter; Escape puts it back. A figure that cannot be is refused with the reason. */
export function FigureInput({ board, set, path, label, measure, value, typeIn }: InputProps): JSX.Element {
  const { units } = board;
  const [draft, setDraft] = useState<string | null>(null);
  const [why, setWhy] = useState<string | null>(null);
  const [isHeld, setHeld] = useState(false);
  const shown = draft ?? (isHeld ? exactText(value, measure, units) : figureText(value, measure, units));
  const putBack = (): void => {
    setDraft(null);
    setWhy(null);
  };
  const take = (input: HTMLInputElement): void => {
    if (draft === null) return;
    const start = performance.now();
    const typed = typeIn(draft, latest(set));
    if (!typed.ok) {
      setWhy(typed.why);
      return;
    }
    putBack();
    if (typed.change) set(typed.change);
    performance.measure(REDRAW, { start });
    selectSoon(input);
  };
  const id = `figure-${path.replaceAll(/[^a-z0-9]+/gi, "-")}`;
  return (
    <span class="figure-field">
      <input
        id={id}
        class="figure"
        type="text"
        inputMode={measure === "length" ? "text" : "decimal"}
        autocomplete="off"
        spellcheck={false}
        data-path={path}
        data-draft={draft === null ? undefined : ""}
        aria-label={`${label}, ${spokenText(value, measure, units)}`}
        aria-invalid={why !== null}
        aria-describedby={why === null ? undefined : `${id}-why`}
        title={`${label}: ${spokenText(value, measure, units)}`}
        style={{ width: `${Math.max(3, shown.length + 1.2)}ch` }}
        value={shown}
        onFocus={(event) => {
          setHeld(true);
          selectSoon(event.currentTarget);
        }}
        onInput={(event) => setDraft(event.currentTarget.value)}
        onBlur={(event) => {
          setHeld(false);
          if (why !== null) putBack();
          else take(event.currentTarget);
        }}
        onKeyDown={(event) => {
          if (event.key === "Enter") take(event.currentTarget);
          if (event.key !== "Escape") return;
          putBack();
          selectSoon(event.currentTarget);
        }}
      />
      {why !== null && (
        <span class="why" id={`${id}-why`} role="alert">
          {why}
        </span>
      )}
    </span>
  );
}

/** From a figure taken to the drawing redrawn: the page's own stopwatch, as browsers show and tests read it. */
const REDRAW = "dryfit: redraw";

/** Once the field shows its figure again, so that the next digit replaces it; not once somebody types already. */
function selectSoon(input: HTMLInputElement): void {
  requestAnimationFrame(() => {
    const isTyping = input.dataset.draft !== undefined;
    if (document.activeElement === input && !isTyping) input.select();
  });
}
