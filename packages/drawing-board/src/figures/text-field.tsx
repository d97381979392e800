import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { SheetProps } from "../state/sheet-props.ts";
import { setIn } from "../state/type-in.ts";

interface TextProps extends SheetProps {
  readonly path: string;
  readonly label: string;
  readonly value: string;
}

/** A name in the design: type, then Enter; Escape puts it back. */
export function TextField({ board, set, path, label, value }: TextProps): JSX.Element {
  const [draft, setDraft] = useState<string | null>(null);
  const [why, setWhy] = useState<string | null>(null);
  const putBack = (): void => {
    setDraft(null);
    setWhy(null);
  };
  const take = (): void => {
    if (draft === null || draft === value) {
      putBack();
      return;
    }
    const typed = setIn(board, path, draft);
    if (!typed.ok) {
      setWhy(typed.why);
      return;
    }
    putBack();
    if (typed.change) set(typed.change);
  };
  const shown = draft ?? value;
  return (
    <span class="figure-field">
      <input
        class="figure text"
        type="text"
        autocomplete="off"
        spellcheck={false}
        data-path={path}
        data-draft={draft === null ? undefined : ""}
        aria-label={label}
        aria-invalid={why !== null}
        style={{ width: `${Math.max(4, shown.length + 1)}ch` }}
        value={shown}
        onInput={(event) => setDraft(event.currentTarget.value)}
        onBlur={() => (why === null ? take() : putBack())}
        onKeyDown={(event) => {
          if (event.key === "Enter") take();
          else if (event.key === "Escape") putBack();
        }}
      />
      {why !== null && (
        <span class="why" role="alert">
          {why}
        </span>
      )}
    </span>
  );
}
