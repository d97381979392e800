import type { Loop, Path, Point, Region } from "@dryfit/geometry";

/** A is up in the first setup, B after the sheet has been turned over. */
export type Face = "A" | "B";

/** Sheet thickness, mm: one number gives three equal ones, caliper readings their least, mean and most. */
export interface Thickness {
  readonly min: number;
  readonly mean: number;
  readonly max: number;
}

/**
 * A blind pocket: housing, groove, rebate or counterbore.
 *
 * `region` is the exact pocket inside the panel's outline. Where its edge lies on the outline the pocket
 * is open there, and whoever cuts or draws it runs it out over the edge (`runOut`).
 * Inside corners already carry the radius that the design's cutter leaves.
 * Shape: face-A coordinates, whichever face it is cut from. Units: `depth` in mm from `face`, at mean thickness.
 */
export interface Recess {
  readonly kind: "recess";
  readonly id: string;
  readonly face: Face;
  readonly region: Region<"panel">;
  readonly depth: number;
  readonly purpose: "housing" | "groove" | "rebate" | "counterbore" | "mortise";
}

/** A through cutout; `loop` counter-clockwise, wood is removed inside it. */
export interface Opening {
  readonly kind: "opening";
  readonly id: string;
  readonly loop: Loop<"panel">;
  readonly title: string;
}

/** A drilled or helically cut hole. `depth` null: through. */
export interface Bore {
  readonly kind: "bore";
  readonly id: string;
  readonly face: Face;
  readonly at: Point<"panel">;
  readonly diameter: number;
  readonly depth: number | null;
}

export type Feature = Recess | Opening | Bore;

/**
 * An edge to round over or chamfer, by hand or by cutter: `run` lies on the outline. `faces`: which arrises.
 * `radius` is the rounding's, or a chamfer's width on both faces.
 */
export interface RoundOver {
  readonly id: string;
  readonly run: Path<"panel">;
  readonly radius: number;
  readonly faces: readonly Face[];
  readonly form: "round" | "chamfer";
  readonly by: "hand" | "cutter";
}

/**
 * One piece of plywood to be cut: an outline and features, in its panel frame (seen from face A,
 * the lower left of the outline's bounding box at the origin).
 */
export interface Part {
  /** "cheek-left", "rail-front", "slat-2": unique in the case, used on every drawing and file. */
  readonly id: string;
  /** What the part is, for grouping: "cheek", "rail", "base", "slat", "support" … */
  readonly panel: string;
  /** For people: "Left cheek". */
  readonly title: string;
  /** Names the sheet material in the design file. */
  readonly material: string;
  readonly thickness: Thickness;
  /** Counter-clockwise. */
  readonly outline: Loop<"panel">;
  readonly features: readonly Feature[];
  readonly roundOvers: readonly RoundOver[];
  /** The face grain's direction in the panel frame, or "free" where looks and strength do not ask. */
  readonly grain: "x" | "y" | "free";
  /** Which face looks outwards in the finished case, in words for the label: "inside", "outside", "top" … */
  readonly faceNames: Readonly<Record<Face, string>>;
  /** Stretches of the outline that mate with another part, where no tab may stand. */
  readonly mating: readonly Path<"panel">[];
}
