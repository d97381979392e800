import type { JSX } from "preact";
import type { SheetProps } from "../state/sheet-props.ts";

/** The cut, drawn from the programs' texts. */
export function CutSheet({ board }: SheetProps): JSX.Element {
  const programs = board.made?.made.shown?.programs ?? [];
  return (
    <ul>
      {programs.map(({ file, read }) => (
        <li key={file}>
          {file}: {read.motions.length} moves
        </li>
      ))}
    </ul>
  );
}
