import type { Plain } from "@dryfit/joinery";
import type { JSX } from "preact";
import { refuse } from "../state/edit.ts";
import type { SheetProps } from "../state/sheet-props.ts";
import { setIn } from "../state/type-in.ts";

interface ChoiceProps extends SheetProps {
  readonly path: string;
  readonly label: string;
  readonly value: Plain;
  readonly choices: readonly (readonly [value: Plain, words: string])[];
}

/** One of a few words of the design. */
export function ChoiceField({ board, set, path, label, value, choices }: ChoiceProps): JSX.Element {
  return (
    <select
      class="figure choice"
      aria-label={label}
      data-path={path}
      value={String(value)}
      onChange={(event) => {
        const chosen = choices.find(([each]) => String(each) === event.currentTarget.value)!;
        const typed = setIn(board, path, chosen[0]);
        set(typed.ok ? (typed.change ?? ((same) => same)) : refuse(typed.why));
      }}
    >
      {choices.map(([each, words]) => (
        <option key={String(each)} value={String(each)}>
          {words}
        </option>
      ))}
    </select>
  );
}
