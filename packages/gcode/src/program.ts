import type { Face } from "@dryfit/joinery";
import type { Cutter } from "./cutter.ts";
import type { ClearedFeature, MadeEdge, RoundCorner, Tab } from "./toolpath.ts";

/** A sheet is turned over about the line x = at (axis "y") or y = at (axis "x") of the sheet frame. */
export interface Flip {
  readonly axis: "x" | "y";
  readonly at: number;
  /** On which it is laid down again; absent: its maker has other means. */
  readonly pins?: PinSet;
}

/** The pins on which a sheet is turned over; `depth` is how deep they stand in the board under it. Sheet frame, mm. */
export interface PinSet {
  readonly diameter: number;
  readonly depth: number;
  readonly at: readonly (readonly [number, number])[];
}

export interface Extents {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly z: readonly [number, number];
}

/** A program as it will be written, and what the planner declares about it. */
export interface Program {
  /** "sheet-1-a-1.nc" */
  readonly file: string;
  readonly sheet: string;
  readonly setup: Face;
  /** In order of use; more than one only where the machine changes cutters itself or pauses. */
  readonly cutters: readonly Cutter[];
  readonly zZero: "bed" | "top";
  readonly text: string;
  /** With acceleration, corners, dwells and spin-up; without the operator's own time at pauses. */
  readonly minutes: number;
  /** Cutting minutes by part id; "" holds the sheet's own work, travel and spin-up. */
  readonly partMinutes: Readonly<Record<string, number>>;
  /** Of the feed moves, in the program's own frame. */
  readonly extents: Extents;
  /** The lowest Z of the program, in its own frame. */
  readonly deepest: number;
  /** Lines that hold words. */
  readonly blocks: number;
  readonly tabs: readonly Tab[];
  readonly corners: readonly RoundCorner[];
  readonly edges: readonly MadeEdge[];
  /** What it clears, in order. */
  readonly cleared: readonly ClearedFeature[];
  /** Height of the onion skin left under every outline, mm; null where tabs hold. */
  readonly skin: number | null;
}
