import type { Point } from "@dryfit/geometry";
import type { Assembly, Direction, Face, Finding } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import type { CutPart } from "./cut-part.ts";
import type { PairOverlap } from "./dryfit.ts";
import type { CaseMeasures } from "./dryfit-measures.ts";
import type { ReadProgram } from "./program/read-program.ts";
import type { Swing } from "./swing.ts";

/** A program file as it stands in the folder, and what its maker declared about it. */
export interface ProgramFile {
  readonly file: string;
  readonly text: string;
  readonly sheet: string;
  readonly setup: Face;
  readonly zZero: "bed" | "top";
  readonly cutters: readonly CutterFacts[];
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
  /** Edges that its shaped cutters make, but for so much of the run at its start and end. */
  readonly edges?: readonly {
    readonly part: string;
    readonly edge: string;
    readonly face: Face;
    readonly left: readonly [number, number];
  }[];
  readonly skin: number | null;
  /** Recesses that it clears, and the most of the cutter's rim that may be in wood at once there, radians; null: any. */
  readonly cleared?: readonly {
    readonly part: string;
    readonly feature: string;
    readonly limit: number | null;
  }[];
}

/** What a proof needs to know of a cutter, mm. */
export interface CutterFacts {
  readonly number: number;
  readonly id: string;
  readonly kind: string;
  readonly diameter: number;
  readonly fluteLength: number;
  readonly shankDiameter: number;
  readonly maxRpm: number;
  /** Most fresh depth per pass, mm; absent: as much as its flutes are long. */
  readonly depthPerPass?: number;
  /** The collet nut, and how far the tip stands out of it; null: not measured. */
  readonly holder?: { readonly diameter: number; readonly stickOut: number } | null;
  /** Of shaped cutters: the radius that they leave, their bearing and how far it reaches below, the angle of a V. */
  readonly cornerRadius?: number | null;
  readonly bearingDiameter?: number | null;
  readonly bearingHeight?: number | null;
  readonly angleDeg?: number | null;
}

/** What a proof needs to know of a machine. */
export interface MachineFacts {
  readonly travel: { readonly x: number; readonly y: number; readonly z: number };
  readonly bedAllowance: number;
  readonly maxPlungeMmPerMin: number;
  readonly dwellUnit: "s" | "ms";
  readonly spindle: { readonly minRpm: number; readonly maxRpm: number };
  /** How high whatever a sheet must be kept clear of stands over its face, mm. Absent: higher than the cutter goes. */
  readonly keepOutHeight?: number;
  /** False where a person switches the spindle: then no program can say whether it turns. Absent: true. */
  readonly spindleControl?: boolean;
}

/** How a sheet is turned over, and the pins on which it is laid down again; absent: its place is found otherwise. */
export interface SheetFlip {
  readonly axis: "x" | "y";
  readonly at: number;
  readonly pins?: {
    readonly diameter: number;
    /** In the board under the sheet, mm. */
    readonly depth: number;
    /** How far a sheet can be pushed from side to side on one pin, mm. */
    readonly play: number;
    readonly at: readonly (readonly [number, number])[];
  };
}

export interface JobToProve {
  readonly assembly: Assembly;
  readonly sheets: readonly Sheet[];
  /** How each sheet is turned over for setup B; absent: it is not. */
  readonly flips: Readonly<Record<string, SheetFlip>>;
  readonly programs: readonly ProgramFile[];
  readonly machine: MachineFacts;
  /** kg/m³ by material, for the case's weight; absent: not known. */
  readonly densities?: Readonly<Record<string, number>>;
}

/** Deviations of the cut from the designed part, mm; the places are in the sheet frame. */
export interface PartProof {
  readonly part: string;
  /** Widest wood taken that should have stayed. */
  readonly gouge: number;
  readonly gougeAt: Point<"sheet"> | null;
  /** Widest wood left that should have gone, declared tabs and corners apart. */
  readonly uncut: number;
  readonly uncutAt: Point<"sheet"> | null;
}

/** How one joint goes together with the parts as cut, mm, at the least and most over the sheet's readings. */
export interface JointProof {
  readonly id: string;
  readonly tongue: string;
  readonly housing: string;
  readonly sideClearance: { readonly min: number; readonly max: number };
  readonly endGap: number;
  readonly shoulderGap: number;
  /** mm³ of wood in wood. */
  readonly interference: number;
}

/** The most of a cutter's rim that is in wood at once in a recess where a limit was asked for, radians. */
export interface EngagementFound {
  readonly file: string;
  readonly part: string;
  readonly feature: string;
  readonly limit: number;
  readonly highest: number;
  /** Where that is: the program's line and its X and Y, mm. */
  readonly line: number;
  readonly at: readonly [number, number];
}

export interface Proof {
  readonly pass: boolean;
  readonly gouge: number;
  readonly uncut: number;
  readonly perPart: readonly PartProof[];
  readonly joints: readonly JointProof[];
  /** Parts in an order in which each can be pushed straight home. */
  readonly order: readonly string[];
  /** The way out of each part but the first, with those before it in the order standing. */
  readonly ways: Readonly<Record<string, Direction>>;
  /** The case as cut: its size, diagonals, weight and footing; null where nothing was cut. */
  readonly measures: CaseMeasures | null;
  /** By sheet that is turned over on pins: how far its two setups can be apart on any part, mm. */
  readonly setupsApart?: Readonly<Record<string, number>>;
  /** Absent: nowhere was a limit asked for. */
  readonly engagements?: readonly EngagementFound[];
  /** Null where nothing swings. */
  readonly swing: Swing | null;
  /** Pairs of parts that claim the same wood, each at the reading where it is most. */
  readonly overlaps: readonly PairOverlap[];
  /** The programs as read, in the job's order. */
  readonly programs: readonly { readonly file: string; readonly read: ReadProgram }[];
  /** The parts as the programs cut them from sheets of mean thickness. */
  readonly cutParts: readonly CutPart[];
  readonly findings: readonly Finding[];
}
