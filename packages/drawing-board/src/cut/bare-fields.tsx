import type { BareSheet } from "@dryfit/job";
import type { JSX } from "preact";
import { FigureInput } from "../figures/figure-input.tsx";
import type { SheetProps } from "../state/sheet-props.ts";
import { valueIn, WANTED } from "../state/type-in.ts";
import { LARGEST_MM } from "./bare-sheet.ts";

interface BareProps extends SheetProps {
  readonly sheet: BareSheet;
  /** Whether it is taken from the file, and nobody has looked at it yet. */
  readonly isGuess: boolean;
  readonly put: (sheet: BareSheet) => void;
}

/** The sheet and the cutter that a program does not state: as they were guessed, to be set right. */
export function BareFields({ sheet, isGuess, put, board, set }: BareProps): JSX.Element {
  const { size, thickness, zZero, cutterDiameter } = sheet;
  const field = (label: string, value: number, next: (mm: number) => BareSheet): JSX.Element => (
    <FigureInput
      board={board}
      set={set}
      path={`bare.${label}`}
      label={label}
      measure="length"
      value={value}
      typeIn={(text) => {
        const typed = valueIn(text, "length", board.units, "mm");
        if (!typed) return { ok: false, why: WANTED.length };
        if (typed.mm <= 0 || typed.mm > LARGEST_MM)
          return { ok: false, why: `Allowed: more than 0, up to ${LARGEST_MM} mm.` };
        put(next(typed.mm));
        return { ok: true, change: null };
      }}
    />
  );
  return (
    <fieldset class="cut-bare">
      <legend>{isGuess ? "Judged on, as its header and its cuts suggest:" : "Judged on:"}</legend>
      sheet {field("Sheet's width", size[0], (mm) => ({ ...sheet, size: [mm, size[1]] }))} ×{" "}
      {field("Sheet's height", size[1], (mm) => ({ ...sheet, size: [size[0], mm] }))} ×{" "}
      {field("Sheet's thickness", thickness, (mm) => ({ ...sheet, thickness: mm }))}, cutter{" "}
      {field("Cutter's diameter", cutterDiameter, (mm) => ({ ...sheet, cutterDiameter: mm }))}, Z zero on{" "}
      <select
        class="figure choice"
        aria-label="Z zero"
        value={zZero}
        onChange={(event) => put({ ...sheet, zZero: event.currentTarget.value === "top" ? "top" : "bed" })}
      >
        <option value="bed">the bed</option>
        <option value="top">the sheet's top</option>
      </select>
    </fieldset>
  );
}
