export type { Wood } from "./chip-load.ts";
export type { Cut } from "./cut.ts";
export { FINISHING_ALLOWANCE } from "./cut.ts";
export type { Cutter, CutterKind, CuttingData } from "./cutter.ts";
export { cuttingData } from "./feeds.ts";
export type { Controller, Machine, Timing } from "./machine.ts";
export type { Extents, Flip, Program } from "./program.ts";
export type { Feed, Move, Operation, Position, RoundCorner, SetupPlan, Tab } from "./toolpath.ts";
