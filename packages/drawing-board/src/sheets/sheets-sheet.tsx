import type { JSX } from "preact";
import type { SheetProps } from "../state/sheet-props.ts";

export function SheetsSheet({ board }: SheetProps): JSX.Element {
  return <p>{board.drawable?.assembly.name}</p>;
}
