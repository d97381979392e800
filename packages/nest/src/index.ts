export { type Nested, nestWithin } from "./anytime.ts";
export { apartBound } from "./apart.ts";
export { priceOf } from "./arrange.ts";
export { areaBound, dualFeasibleBound } from "./bounds.ts";
export { type BinBox, type BinType, type BoxBins, packBoxBins } from "./boxBins.ts";
export { type Budget, stepBudget, timeBudget } from "./budget.ts";
export { checkLayout, regionOfPart } from "./check.ts";
export { type CutLeaf, type CutNode, type CutTree, cutSheet, type Piece, piecesOf } from "./guillotine.ts";
export type { Layout, Lock, NestJob, NestRules, PlacedPart, Sheet, Stock } from "./layout.ts";
export { nest, sheetsBound } from "./nest.ts";
export { type Offcut, offcutsOf } from "./offcut.ts";
export type { Snapshot } from "./packing.ts";
export { type Bin, type ItemType, type Obstacle, type Problem, problemOf } from "./problem.ts";
export type { Polygon, Ring } from "./ring.ts";
export type {
  Blank,
  Board,
  SawCut,
  SawJob,
  SawnBlank,
  SawPlan,
  SawRules,
  SawSheet,
  Together,
} from "./sawJob.ts";
export { sawPlan } from "./sawPlan.ts";
export { packSheets, type SheetKind, type SheetsResult } from "./sheets.ts";
export type { Peer } from "./shrink.ts";
export { packBoxStrip, type StripBox } from "./skyline.ts";
export { packStrip, STRIP_COARSE, type StripResult } from "./strip.ts";
export type { Turn } from "./turns.ts";
