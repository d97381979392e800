export type {
  BuildSheetData,
  CaseEntry,
  JointEntry,
  ProgramEntry,
  Risk,
  SheetEntry,
  TimeEntry,
} from "./build-data.ts";
export { machineWords } from "./build-finish.ts";
export { MACHINE_RISKS } from "./build-risks.ts";
export { BUILD_SHEET_FILES, buildSheet, buildSheetFile, buildSheetFiles } from "./build-sheet.ts";
export { type CaseTitle, caseDrawing } from "./case.ts";
export { cutPatterns, outsideView, sectionView } from "./case-view.ts";
export { type CouponSheetData, couponSheet } from "./coupon-sheet.ts";
export { passWeight, runsOf, strokesOf } from "./cutter-path.ts";
export { cuttingSheetFiles } from "./cutting-sheet.ts";
export { arrowhead } from "./dimension.ts";
export { explodedDrawing } from "./exploded.ts";
export { hatchPattern, hatchSpacing } from "./hatch.ts";
export { thicknessWords } from "./lettering.ts";
export { type OrderedPart, type OrderedSheet, type OrderPages, orderPages } from "./order-pages.ts";
export { type OnPaper, pathData, spot, toPaper, type View } from "./outline.ts";
export { contrast, dark, light, type Palette, paletteCss } from "./palette.ts";
export { checks, type Paper, paragraph, type Section, section, steps, table, title } from "./paper/block.ts";
export { paperHtml } from "./paper/html.ts";
export type { PdfMark, PdfPage, PdfStroke } from "./pdf/mark.ts";
export { grey } from "./pdf/mark.ts";
export { MARGIN, type PaperName, papers } from "./pdf/paper.ts";
export {
  BULLET,
  bulletRows,
  flowed,
  type Row,
  type RowBlock,
  ruleRow,
  SIDE,
  spaceRow,
  textAt,
  wordRows,
} from "./pdf/rows.ts";
export { textWidth, wrapped } from "./pdf/text.ts";
export { type Tile, type TiledDrawing, type TileOptions, type Tiling, tiled } from "./pdf/tiles.ts";
export { line, pdfText } from "./pdf/write.ts";
export type {
  Meaning,
  Motion,
  ProgramPicture,
  ReadDrawing,
  SheetPicture,
  Spot,
  Verdict,
} from "./picture.ts";
export type { SawBox, SawLine, SawPlanData, SawSheetData } from "./saw-data.ts";
export { sawPlan } from "./saw-plan.ts";
export { sawSheetSvg } from "./saw-sheet.ts";
export { sheetSvg } from "./sheet.ts";
export { boxOfCase, type Eye, fromAbove, fromFront, fromRight, seen } from "./standing.ts";
export { drawingStyle } from "./style.ts";
export { el, type Markup } from "./svg.ts";
export { type DrawnTab, outlineWithTabs } from "./tabs.ts";
export { innerPoint } from "./wood.ts";
export { boreMark, keepOutMark, openingMark, recessMark } from "./wood-marks.ts";
