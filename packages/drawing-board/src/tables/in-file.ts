import type { SheetProps } from "../state/sheet-props.ts";

/** A round length for a new thing, in the file's units. */
export function inFile({ board }: SheetProps, mm: number): number {
  return board.drawn.design?.units === "in" ? Math.round((mm / 25.4) * 8) / 8 : mm;
}
