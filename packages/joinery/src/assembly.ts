import type { Finding } from "./finding.ts";
import type { Part } from "./part.ts";

/** A point in the case frame: x right, y to the back, z up, origin at the inside floor's front left. mm. */
export interface Point3 {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export interface Box3 {
  readonly min: Point3;
  readonly max: Point3;
}

export type Direction = "+x" | "-x" | "+y" | "-y" | "+z" | "-z";

/**
 * How a part stands in the case: panel (x, y) and depth d from face A (positive into the wood) go to
 * origin + x·along.x + y·along.y + (d − datum)·into, where datum is 0 for face A and the actual
 * thickness for face B. So the datum face stays where it is whatever the sheet's thickness.
 */
export interface Pose {
  readonly origin: Point3;
  readonly x: Direction;
  readonly y: Direction;
  readonly into: Direction;
  readonly datum: "A" | "B";
  /** How many sheets of its own kind lie between the origin and the datum face: the part moves with their thickness. */
  readonly stacked?: number;
}

/**
 * A tongue standing in a housing or groove.
 *
 * `box` is the nominal tongue, from shoulder to end, in the case frame. `into` is the way it is pushed in,
 * `across` the axis over which it is thin, `along` the axis of its length.
 * The asked fit: `side` per side across, `end` under the tongue, mm; `alongLeast` is the least air at each end.
 */
export interface Joint {
  readonly id: string;
  readonly tongue: { readonly part: string; readonly box: Box3 };
  /** `behind`: the other layers of the panel that the housing lies in, the floor under the tongue among them. */
  readonly housing: { readonly part: string; readonly feature: string; readonly behind?: readonly string[] };
  readonly into: Direction;
  readonly across: "x" | "y" | "z";
  readonly along: "x" | "y" | "z";
  readonly fit: { readonly side: number; readonly end: number; readonly alongLeast: number };
  /** False where no shoulder closes on the housing's face (full-thickness ends do close: end face of none). */
  readonly shoulder: boolean;
  /** True where the housing goes through its panel: `fit.end` is how far the tongue stands back from the other face. */
  readonly through?: boolean;
}

/** A case: its parts as they are cut and as they stand. */
export interface Assembly {
  readonly name: string;
  readonly parts: readonly Part[];
  readonly poses: Readonly<Record<string, Pose>>;
  readonly joints: readonly Joint[];
  /** Parts that are glued to one before the case goes together, from the inside out; absent: none. */
  readonly glued?: readonly (readonly string[])[];
  /** Inside width, depth, heights at front and back rail, mm. */
  readonly inside: {
    readonly width: number;
    readonly depth: number;
    readonly front: number;
    readonly back: number;
  };
  /** Over all, feet included, mm. */
  readonly outside: { readonly width: number; readonly depth: number; readonly height: number };
  /** Radians. */
  readonly rake: number;
  /** Points of the case that should touch one plane. */
  readonly feet: readonly Point3[];
  /** A raised level that swings about an axis parallel to x; null where nothing swings. `swingDeg` is how far it must open. */
  readonly hinge: null | {
    readonly parts: readonly string[];
    readonly axis: Point3;
    readonly swingDeg: number;
  };
  readonly findings: readonly Finding[];
}
