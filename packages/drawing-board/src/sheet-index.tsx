import type { JSX } from "preact";
import { CaseSheet } from "./case/case-sheet.tsx";
import { CutSheet } from "./cut/cut-sheet.tsx";
import { GearSheet } from "./gear/gear-sheet.tsx";
import { PapersSheet } from "./papers/papers-sheet.tsx";
import { SheetsSheet } from "./sheets/sheets-sheet.tsx";
import { StandUpSheet } from "./stand-up/stand-up-sheet.tsx";
import type { SheetName } from "./state/board-state.ts";
import type { SheetProps } from "./state/sheet-props.ts";

/** The sheets that one turns to, in order. */
export const SHEETS: readonly {
  readonly name: SheetName;
  readonly title: string;
  readonly Sheet: (props: SheetProps) => JSX.Element;
}[] = [
  { name: "case", title: "Case", Sheet: CaseSheet },
  { name: "gear", title: "Gear", Sheet: GearSheet },
  { name: "sheets", title: "Sheets", Sheet: SheetsSheet },
  { name: "cut", title: "Cut", Sheet: CutSheet },
  { name: "stand-up", title: "Stand up", Sheet: StandUpSheet },
  { name: "papers", title: "Papers", Sheet: PapersSheet },
];
