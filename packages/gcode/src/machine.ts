import type { PlanOptions } from "./plan-options.ts";

/** What a controller understands. Flags, never a product's name. */
export interface Controller {
  /** G2/G3 with I, J. False: arcs become short lines within tolerance. */
  readonly arcs: boolean;
  /** An arc may change Z. False: helical entries become straight ramps. */
  readonly helix: boolean;
  /** One block may hold a whole circle. False: split below half a turn. */
  readonly fullCircle: boolean;
  /** G81 to G83. False: expanded to G0, G1 and G4. */
  readonly cannedDrilling: boolean;
  /** "in-program": T and M6. "pause": M0 with a message. "separate-files": one program per cutter. */
  readonly cutterChange: "in-program" | "pause" | "separate-files";
  /** In-program change only: G43 H takes each cutter's length from the controller's table. False: it measures by itself. */
  readonly lengthTable: boolean;
  readonly comments: "parentheses" | "semicolon" | "none";
  readonly lineNumbers: boolean;
  readonly dwellUnit: "s" | "ms";
  /** Decimals of coordinates in mm, 3 to 5. */
  readonly decimals: number;
  readonly pathMode: "none" | "G61" | "G64";
  readonly maxLineLength: number;
  readonly percentMarks: boolean;
  /** M3 S starts the spindle. False: it is switched by hand, and the program pauses for it. */
  readonly spindleControl: boolean;
  readonly workOffset: "G54" | "G55" | "G56" | "G57" | "G58" | "G59" | "none";
  readonly programEnd: "M2" | "M30";
}

/** How this very machine differs from its data sheet, as `calibrate` found it. */
export interface Timing {
  /** The true acceleration over the one stated; 1 until measured. */
  readonly acceleration: number;
  /** Least seconds that a block takes, however short its move; 0 until measured. */
  readonly blockSeconds: number;
}

/** The pins that a turned sheet is found again by. */
export interface Pins {
  readonly diameter: number;
  /** How deep they stand in the board under the sheet; the board must be thicker. */
  readonly depth: number;
  /** How far a sheet can be pushed from side to side on one pin: the play in the bed and in the sheet together. */
  readonly play: number;
}

/** How this maker likes it cut. */
export type CuttingRules = Pick<
  PlanOptions,
  "direction" | "rampAngle" | "finish" | "clearing" | "rest" | "score" | "hold" | "lead"
>;

/** A router: travel, speeds, and what its controller understands. mm, mm/min, mm/s² as named. */
export interface Machine {
  readonly name: string;
  readonly travel: { readonly x: number; readonly y: number; readonly z: number };
  readonly zZero: "bed" | "top";
  /** Height of rapids over the stock's face. */
  readonly safeHeight: number;
  /** How far below the stock's underside a through cut may go. */
  readonly bedAllowance: number;
  readonly rapidMmPerMin: { readonly xy: number; readonly z: number };
  readonly maxFeedMmPerMin: { readonly xy: number; readonly z: number };
  readonly accelerationMmPerS2: { readonly xy: number; readonly z: number };
  /** How far a path may round a corner without stopping, mm. */
  readonly cornerDeviation: number;
  readonly spindle: {
    readonly minRpm: number;
    readonly maxRpm: number;
    readonly powerW: number;
    readonly spinUpSeconds: number;
  };
  /** Share of the handbook chip load that this frame bears: 0.3 to 0.5 for light machines. */
  readonly derate: number;
  readonly timing: Timing;
  /** Places on the bed, seen from X0 Y0, where something stands in every setup: [left, bottom, width, height]. */
  readonly clamps: readonly (readonly [number, number, number, number])[];
  /** How high clamps, screws and whatever a sheet must be kept clear of stand over its face. */
  readonly keepOutHeight: number;
  readonly pins: Pins;
  readonly cutting: CuttingRules;
  readonly controller: Controller;
}
