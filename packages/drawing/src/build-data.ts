import type { Assembly, Cost, Face, Finding, FinishPlan, HardwareLine } from "@dryfit/joinery";
import type { Section } from "./paper/block.ts";
import type { Spot, Verdict } from "./picture.ts";

/** All that the bench paper tells; every figure comes from what was written and proved. mm. */
export interface BuildSheetData {
  readonly assembly: Assembly;
  readonly revision: string;
  readonly verdict: Verdict;
  readonly material: string;
  /** In words: "14.8 mm". */
  readonly thickness: string;
  readonly hardware: readonly HardwareLine[];
  readonly sheets: readonly SheetEntry[];
  readonly programs: readonly ProgramEntry[];
  /** Who makes the parts where no programs of ours do, and what is to be known of it; absent: the programs. */
  readonly making?: {
    readonly by: string;
    readonly sections: readonly Section[];
    /** Of this way of making, in place of those of a machine that runs programs. */
    readonly cautions: readonly string[];
    readonly time: readonly TimeEntry[];
    readonly risks: readonly Risk[];
  };
  /** Edges that the programs make; absent: none, all are made by hand. */
  readonly edges?: readonly EdgeEntry[];
  readonly joints: readonly JointEntry[];
  /** Part ids in the order in which the proof could push each straight home. */
  readonly order: readonly string[];
  /** What the stood-up case measures; null where it was not stood up. */
  readonly measures: CaseEntry | null;
  readonly findings: readonly Finding[];
  /** Null where no price is known. */
  readonly cost: Cost | null;
  readonly finish: FinishPlan;
}

/** A stretch of the work. */
export interface TimeEntry {
  readonly what: string;
  readonly minutes: number;
  readonly waitingHours: number;
  /** How the figures come about, in words. */
  readonly by: string;
}

/** What no proof can know. */
export interface Risk {
  readonly what: string;
  readonly shows: string;
  readonly helps: string;
}

/** An edge that a program makes with a shaped cutter, but for so much at its start and end. */
export interface EdgeEntry {
  readonly part: string;
  readonly edge: string;
  readonly face: Face;
  readonly left: readonly [number, number];
}

export interface SheetEntry {
  readonly id: string;
  readonly size: readonly [number, number];
  readonly grain: "x" | "y";
  readonly parts: readonly string[];
  /** Share of the sheet that becomes parts, 0 to 1. */
  readonly yield: number;
  readonly flip: { readonly axis: "x" | "y"; readonly at: number } | null;
  /** On which it is turned over; `apart`: how far the two faces of a part may then be cut apart. */
  readonly pins?: {
    readonly count: number;
    readonly diameter: number;
    /** In the board under the sheet. */
    readonly depth: number;
    readonly play: number;
    readonly apart: number;
  } | null;
  /** The sheet's drawing as SVG, shown in the paper; null: only named. */
  readonly svg: string | null;
}

export interface ProgramEntry {
  readonly file: string;
  readonly sheet: string;
  readonly setup: Face;
  readonly cutter: string;
  readonly zZero: "bed" | "top";
  readonly minutes: number;
  /** Feed moves only, in the program's own frame. */
  readonly extents: { readonly min: Spot; readonly max: Spot } | null;
  readonly deepest: number | null;
  readonly tabs: number;
}

export interface JointEntry {
  readonly id: string;
  readonly tongue: string;
  readonly housing: string;
  readonly sideClearance: { readonly min: number; readonly max: number };
  readonly endGap: number;
  readonly shoulderGap: number;
  /** mm³ of wood in wood. */
  readonly interference: number;
}

export interface CaseEntry {
  /** Over the outside, seen from above. */
  readonly diagonals: readonly [number, number];
  readonly weightKg: number | null;
  /** Most that a foot hangs over a flat table; null where the case stands on no feet of its own. */
  readonly footing: { readonly rocking: number } | null;
}
