import type { Point } from "@dryfit/geometry";
import type { Assembly, Face, Finding } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";

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
  readonly skin: number | null;
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
}

/** What a proof needs to know of a machine. */
export interface MachineFacts {
  readonly travel: { readonly x: number; readonly y: number; readonly z: number };
  readonly bedAllowance: number;
  readonly maxPlungeMmPerMin: number;
  readonly dwellUnit: "s" | "ms";
  readonly spindle: { readonly minRpm: number; readonly maxRpm: number };
}

export interface JobToProve {
  readonly assembly: Assembly;
  readonly sheets: readonly Sheet[];
  /** How each sheet is turned over for setup B; absent: it is not. */
  readonly flips: Readonly<Record<string, { readonly axis: "x" | "y"; readonly at: number }>>;
  readonly programs: readonly ProgramFile[];
  readonly machine: MachineFacts;
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

export interface Proof {
  readonly pass: boolean;
  readonly gouge: number;
  readonly uncut: number;
  readonly perPart: readonly PartProof[];
  readonly joints: readonly JointProof[];
  readonly findings: readonly Finding[];
}
