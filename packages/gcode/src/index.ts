export type { Cutter, CutterKind, CuttingData } from "./cutter.ts";
export type { Controller, Machine } from "./machine.ts";
export type { Flip, Program } from "./program.ts";
export type { Feed, Move, Operation, Position, RoundCorner, SetupPlan, Tab } from "./toolpath.ts";
