import type { Cost, Finding, FinishPlan } from "@dryfit/joinery";
import type { JointProof } from "@dryfit/verify";
import type { Work } from "./work.ts";

/**
 * What was made and what was proved, as `job.json` holds it. Stable: fields are added, never changed.
 *
 * Units: mm, mm² for areas, mm³ for interference, minutes; `yield` is a share of 1.
 * Files are named relative to the folder.
 */
export interface Job {
  readonly name: string;
  readonly units: "mm";
  /** What was made of the design. */
  readonly kind: Work;
  readonly tool: { readonly name: "dryfit"; readonly version: string };
  readonly design: { readonly file: string; readonly sha256: string };
  readonly shop: { readonly machine: string; readonly cutters: string };
  /** Stands on every paper: the first eight digits of what the design and the shop files hash to. */
  readonly revision: string;
  readonly parts: readonly JobPart[];
  readonly sheets: readonly JobSheet[];
  readonly joints: readonly JointProof[];
  readonly verification: Verification;
  /** Null where no price is known. */
  readonly cost: Cost | null;
  /** What goes on the wood, with its quantities; null for a coupon, which gets none. */
  readonly finish: FinishPlan | null;
  /** Of the bare case as cut; null where it was not stood up or its density is not known. */
  readonly weightKg: number | null;
  readonly findings: readonly PlacedFinding[];
  /** Every file of the folder but this one. */
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
}

export interface JobPart {
  readonly id: string;
  readonly panel: string;
  readonly sheet: string;
  readonly thickness: number;
  readonly size: readonly [number, number];
  readonly upFace: string;
  readonly area: number;
  /** Where it lies: turned `turnDeg` counter-clockwise, then shifted; sheet frame. */
  readonly placed: { readonly turnDeg: number; readonly shift: readonly [number, number] };
}

export interface JobSheet {
  readonly id: string;
  readonly stock: string;
  readonly size: readonly [number, number];
  readonly thickness: number;
  readonly parts: readonly string[];
  readonly yield: number;
  readonly flip: null | { readonly axis: "x" | "y"; readonly at: number };
  /** The pins on which it is turned over: their play, and how far apart that lets the two setups be on any part. */
  readonly pins: null | {
    readonly diameter: number;
    /** In the board under the sheet. */
    readonly depth: number;
    readonly play: number;
    readonly apart: number;
    readonly at: readonly (readonly [number, number])[];
  };
  readonly dxf: readonly string[];
  readonly programs: readonly JobProgram[];
}

export interface JobCutter {
  readonly id: string;
  readonly kind: string;
  readonly diameter: number;
}

export interface JobProgram {
  readonly file: string;
  readonly setup: "A" | "B";
  /** Exactly one of `cutter` and `cutters` stands here. */
  readonly cutter?: JobCutter;
  readonly cutters?: readonly (JobCutter & { readonly number: number })[];
  readonly zZero: "bed" | "top";
  readonly minutes: number;
  /** Feed moves only, in the program's own frame. */
  readonly extents: {
    readonly x: readonly [number, number];
    readonly y: readonly [number, number];
    readonly z: readonly [number, number];
  };
  readonly deepest: number;
  /** Lines that hold words. */
  readonly blocks: number;
  readonly tabs: readonly {
    readonly part: string;
    readonly at: readonly [number, number];
    readonly length: number;
    readonly height: number;
  }[];
  readonly corners: readonly {
    readonly part: string;
    readonly at: readonly [number, number];
    readonly radius: number;
  }[];
  /** Edges that shaped cutters make, but for so much of the run at its start and end, which is left to the hand. */
  readonly edges: readonly {
    readonly part: string;
    readonly edge: string;
    readonly face: "A" | "B";
    readonly left: readonly [number, number];
  }[];
  readonly cleared: readonly JobCleared[];
  readonly skin: number | null;
}

/** How a recess or opening is cleared of its wood. */
export interface JobCleared {
  readonly part: string;
  readonly feature: string;
  readonly method: "contour" | "raster" | "engagement" | "line" | "rest";
  /** The most of the cutter's rim that is in wood at once, as planned; and what it was held to, null: nothing. */
  readonly engagementDeg: number;
  readonly limitDeg: number | null;
  /** The same worked out again from the program's text; null where nothing was asked. */
  readonly highestDeg: number | null;
  readonly minutes: number;
}

export interface Verification {
  readonly pass: boolean;
  readonly gouge: number;
  readonly uncut: number;
  readonly perPart: readonly { readonly part: string; readonly gouge: number; readonly uncut: number }[];
}

/** A finding with its place in a file that a person can open; null where it has none. */
export interface PlacedFinding extends Finding {
  readonly at: { readonly file: string; readonly line: number; readonly column: number } | null;
}
