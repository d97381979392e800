import type { DrawingRef, DrawnShape } from "./drawing.ts";
import type { Thickness } from "./part.ts";
import type { ShapeName } from "./presets.ts";

/**
 * One case as its maker wrote it, with every default filled in: mm, degrees where a name ends in nothing
 * else but an angle (`angle`, `swing`), keys as in the file, so that a finding's path leads straight to them.
 */
export interface Design {
  readonly dryfit: 1;
  readonly name: string;
  /** What a bare number in the file meant. Everything here is mm. */
  readonly units: Units;
  readonly inside: Inside;
  readonly sheet: SheetMaterial;
  readonly joint: JointRules;
  /** How the cheeks are layered where the case is cut through only; null: tongues stand in housings. */
  readonly layers: LayerRules | null;
  /** Diameter of the cutter that the inside corners are drawn for. */
  readonly cutter: number;
  readonly cheek: CheekRules;
  readonly tier: TierRules | null;
  readonly openings: readonly OpeningRules[];
  readonly edges: readonly EdgeRules[];
  /** The drawings that it asks for, read, by their keys ("cheek.crest.file"); those not at hand are missing. */
  readonly drawn: Readonly<Record<string, DrawnShape>>;
}

export type Units = "mm" | "in";

export interface Inside {
  readonly width: number;
  readonly depth: number;
  /** From the inside floor to the front rail's top. */
  readonly front: number;
  /** From the inside floor to the back rail's top. */
  readonly back: number;
}

export interface SheetMaterial {
  readonly name: string;
  readonly thickness: Thickness;
  /** As given: one number, or the caliper readings. */
  readonly readings: readonly number[];
  readonly sizes: readonly SheetSize[];
  /** Parts that are laid down by hand; the others nest around them. */
  readonly locked: readonly LockedPart[];
  /** Least wood between a part and the sheet's edge. */
  readonly margin: number;
  /** Least wood between the cuts of two neighbours. */
  readonly web: number;
  /** kg/m³. */
  readonly density: number;
  /** Stiffness along the face grain, N/mm². */
  readonly modulus: number;
}

export interface SheetSize {
  readonly id: string;
  readonly size: readonly [number, number];
  readonly grain: "x" | "y";
  /** How many there are; null: as many as needed. */
  readonly count: number | null;
  readonly price: number | null;
  /** Rectangles where nothing may be cut: [left, bottom, width, height]. */
  readonly avoid: readonly (readonly [number, number, number, number])[];
}

/** Where a part lies that its maker has laid down. */
export interface LockedPart {
  readonly part: string;
  /** Which of the job's sheets, counted from 1. */
  readonly sheet: number;
  /** The id of its size. */
  readonly size: string;
  /** The lower left corner of the box round the part as it lies. */
  readonly x: number;
  readonly y: number;
  /** Counter-clockwise seen from face A, degrees. */
  readonly turn: 0 | 90 | 180 | 270;
}

export interface JointRules {
  readonly rails: "inner" | "full" | "fewest-flips";
  readonly tongue: { readonly thickness: number; readonly length: number };
  readonly clearance: { readonly side: number; readonly end: number };
  /** Least wood between a housing and the cheek's edges. */
  readonly stop: number;
  /** The shortest piece of tongue that is left standing. */
  readonly piece: number;
}

/** Each cheek of several layers that are glued to one: slots go through the inner ones, the outermost is plain. */
export interface LayerRules {
  /** Of each cheek, the plain one among them. */
  readonly count: number;
  /** About how wide each tongue is along its edge: they fill the edge evenly. */
  readonly tongue: number;
  /** Wood left between two slots. */
  readonly apart: number;
  /** Dowels that keep the layers in place while they are glued. */
  readonly pins: { readonly count: number; readonly diameter: number };
}

export interface CheekRules {
  readonly crest: CrestRules;
  readonly feet: { readonly front: FootRules; readonly back: FootRules };
  /** How far the cheeks stand out over the rails. */
  readonly overhang: { readonly front: number; readonly back: number };
}

export interface CrestRules {
  readonly form: "straight" | "arc" | "batten" | "drawn";
  /** Where the form is drawn: the file of its line. */
  readonly drawing: DrawingRef | null;
  /** A place on the curve: `at` from the inside of the front rail, `height` over the inside floor. */
  readonly through: { readonly at: number; readonly height: number };
  /** How far the crest stands over the rails. */
  readonly above: number;
}

/** A lobe of the cheek below the base's underside. `drop` 0: none. */
export interface FootRules {
  /** How far its outer corner goes below the base's underside. */
  readonly drop: number;
  /** Along the floor, from the cheek's edge. */
  readonly length: number;
  /** Between the foot's end and the belly, degrees. */
  readonly angle: number;
  /** Of the curve in which the foot's end runs into the belly. */
  readonly radius: number;
}

export interface TierRules {
  readonly slats: number;
  readonly slat: number;
  readonly gap: number;
  /** From the inside floor to the slats' top. */
  readonly height: number;
  /** Air at each end of a slat, and between the last slat and the back rail. */
  readonly clearance: number;
  /** How far the tier swings up, degrees; 0: the slats are screwed down. */
  readonly swing: number;
  /** From the hinge's pin to the two faces it is screwed to: half its knuckle. */
  readonly pin: number;
  /** Strips on edge under the slats, from front to back. */
  readonly bearers: { readonly count: number; readonly inset: number; readonly air: number };
  /** Strips on the cheeks that the slats' ends lie on. */
  readonly cleat: { readonly height: number };
  /** Diameter of the holes for the screws. */
  readonly screw: number;
}

/** Where a cutout stands: distances of its middle from named edges, one each way. */
export type EdgeName = "left" | "right" | "front" | "back" | "top" | "bottom" | "floor";

export interface OpeningRules {
  readonly id: string;
  readonly panel: string;
  readonly shape: ShapeName;
  /** Where the shape is drawn: the file of its contours. */
  readonly drawing: DrawingRef | null;
  /** Its measures: the preset's own, or changed. mm, but for `count`. */
  readonly size: Readonly<Record<string, number>>;
  readonly from: Readonly<Partial<Record<EdgeName, number>>>;
  /** Counter-clockwise seen from face A, degrees. */
  readonly turn: 0 | 90 | 180 | 270;
  /** How its corners are relieved for a square part; the cutter's own round where `none`. */
  readonly relief: Relief;
}

/** `along-width`: the walls along its width run on past the others; `along-height`: those along its height. */
export type Relief = "none" | "diagonal" | "along-width" | "along-height";

export interface EdgeRules {
  readonly panel: string;
  readonly edge: string;
  /** Of the rounding; of a chamfer, its width on both faces. */
  readonly radius: number;
  readonly faces: "both" | "A" | "B";
  readonly form: "round" | "chamfer";
  /** `cutter`: by a pass of a round-over or V cutter where it can be reached; else by hand afterwards. */
  readonly by: "hand" | "cutter";
}
