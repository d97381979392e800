import type { Face } from "@dryfit/joinery";
import type { Cutter } from "./cutter.ts";
import type { RoundCorner, Tab } from "./toolpath.ts";

/** A sheet is turned over about the line x = at (axis "y") or y = at (axis "x") of the sheet frame. */
export interface Flip {
  readonly axis: "x" | "y";
  readonly at: number;
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
  readonly minutes: number;
  readonly tabs: readonly Tab[];
  readonly corners: readonly RoundCorner[];
  /** Height of the onion skin left under every outline, mm; null where tabs hold. */
  readonly skin: number | null;
}
