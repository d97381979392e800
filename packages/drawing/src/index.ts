export type { BuildSheetData, CaseEntry, JointEntry, ProgramEntry, SheetEntry } from "./build-data.ts";
export { buildSheetHtml } from "./build-sheet.ts";
export { type CaseTitle, caseDrawing } from "./case.ts";
export { explodedDrawing } from "./exploded.ts";
export { contrast, dark, light, type Palette } from "./palette.ts";
export type {
  Meaning,
  Motion,
  ProgramPicture,
  ReadDrawing,
  SheetPicture,
  Spot,
  Verdict,
} from "./picture.ts";
export { sheetSvg } from "./sheet.ts";
