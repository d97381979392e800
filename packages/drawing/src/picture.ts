import type { Loop, Point, Region } from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";

/** What a layer of the exported drawing means; null for a layer that is none of ours. */
export type Meaning =
  | { readonly kind: "outside" }
  | { readonly kind: "inside" }
  | { readonly kind: "recess"; readonly depth: number; readonly face: Face }
  | { readonly kind: "bore"; readonly diameter: number; readonly depth: number | null; readonly face?: Face }
  | { readonly kind: "label" }
  | { readonly kind: "sheet-edge" }
  | null;

/** The exported DXF as it was read back, in the sheet frame, mm. */
export interface ReadDrawing {
  readonly loops: readonly { readonly meaning: Meaning; readonly loop: Loop }[];
  readonly texts: readonly {
    readonly at: Point;
    readonly height: number;
    readonly rotationDeg: number;
    readonly text: string;
  }[];
}

export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** One travel of the cutter as read back from the program text, in the program's own frame. */
export interface Motion {
  readonly line: number;
  readonly kind: "rapid" | "feed";
  readonly from: Spot;
  readonly to: Spot;
  /**
   * Null where the travel is straight. Radians; positive is counter-clockwise. An arc in an upright plane
   * is seen on edge, so it is drawn straight.
   */
  readonly arc: {
    readonly plane?: string;
    readonly centre: { readonly x: number; readonly y: number };
    readonly sweep: number;
  } | null;
}

/** One program file and what its motions are. */
export interface ProgramPicture {
  readonly file: string;
  readonly setup: Face;
  /** In words: "6 mm up-cut". */
  readonly cutter: string;
  readonly minutes: number;
  /** Lowest Z that the program feeds to, in its own frame. */
  readonly deepest: number;
  readonly zZero: "bed" | "top";
  readonly motions: readonly Motion[];
  readonly tabs: readonly {
    readonly part: string;
    readonly at: readonly [number, number];
    readonly length: number;
  }[];
}

/** All that a sheet's drawing shows. */
export interface SheetPicture {
  /** The design's name. */
  readonly name: string;
  /** "sheet-1". */
  readonly sheet: string;
  readonly size: readonly [number, number];
  readonly grain: "x" | "y";
  readonly material: string;
  /** In words: "14.8 mm". */
  readonly thickness: string;
  readonly revision: string;
  readonly verdict: Verdict;
  readonly flip: { readonly axis: "x" | "y"; readonly at: number } | null;
  readonly keepOuts: readonly Region[];
  readonly drawing: ReadDrawing;
  readonly programs: readonly ProgramPicture[];
}

/** What the proof said, in a sentence: "Proved: widest error 0.004 mm, nothing touches." */
export interface Verdict {
  readonly pass: boolean;
  readonly sentence: string;
}
