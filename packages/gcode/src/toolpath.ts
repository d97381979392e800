import type { Face } from "@dryfit/joinery";

/**
 * A position of the cutter's tip in a program: X, Y as the sheet lies in this setup,
 * z the height over the face that is up (negative in wood; the writer shifts it to the machine's zero). mm.
 */
export interface Position {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** mm/min. */
export type Feed = number;

/** One step of a toolpath, in the order of cutting. Arcs sweep at most half a turn. */
export type Move =
  | { readonly kind: "rapid"; readonly to: Position }
  | { readonly kind: "line"; readonly to: Position; readonly feed: Feed }
  | {
      readonly kind: "arc";
      readonly to: Position;
      readonly centre: { readonly x: number; readonly y: number };
      /** Radians, signed; positive is counter-clockwise. */
      readonly sweep: number;
      readonly feed: Feed;
    }
  | {
      readonly kind: "drill";
      readonly at: Position;
      readonly from: number;
      readonly peck: number | null;
      readonly dwellSeconds: number;
      readonly feed: Feed;
    }
  /** A pass begins: the writer shows the text and states every word anew, so that a program can be taken up here. */
  | { readonly kind: "comment"; readonly text: string };

/**
 * Wood left on purpose under an outline: `at` in the sheet frame, the middle of the tab on the part's edge.
 * `length` is all of the edge on which the tab leaves any wood, `height` reaches up from the sheet's underside.
 */
export interface Tab {
  readonly part: string;
  readonly at: readonly [number, number];
  readonly length: number;
  readonly height: number;
}

/** An inside corner that the cutter leaves round: the designed vertex in the sheet frame. */
export interface RoundCorner {
  readonly part: string;
  readonly at: readonly [number, number];
  readonly radius: number;
}

/** How a pocket is cleared. */
export interface ClearedBy {
  /** "line": a slot as wide as the cutter, or a rebate that one line takes; "rest": what a larger cutter has left. */
  readonly method: "contour" | "raster" | "engagement" | "line" | "rest";
  /** The most of the cutter's rim that cuts at once, radians, ramps' wedges apart. */
  readonly engagement: number;
  /** What it was held to, radians; null: the method keeps to no angle. */
  readonly limit: number | null;
  /** From the first corner and back to safe height, accelerations counted. */
  readonly minutes: number;
}

/** A recess or opening that is cleared, and how. */
export interface ClearedFeature extends ClearedBy {
  readonly part: string;
  readonly feature: string;
}

/** An edge that a shaped cutter makes: a rounding or chamfer of the part's, but for so much at its start and end. */
export interface MadeEdge {
  readonly part: string;
  readonly edge: string;
  readonly face: Face;
  readonly left: readonly [number, number];
}

/** One job for one cutter in one setup: a recess, a bore, an opening, an outline, a pin hole. */
export interface Operation {
  readonly id: string;
  readonly kind: "recess" | "bore" | "opening" | "outline" | "pin" | "round-over";
  /** The part it belongs to; "" for the sheet's own (pins). */
  readonly part: string;
  readonly feature: string;
  readonly cutter: string;
  /** Starts and ends at safe height; holds no rapid in wood. */
  readonly moves: readonly Move[];
  readonly tabs: readonly Tab[];
  readonly corners: readonly RoundCorner[];
  /** Only where a shaped cutter makes an edge. */
  readonly edge?: MadeEdge;
  /** Only where wood is cleared away, not followed round. */
  readonly cleared?: ClearedBy;
  /** Height of the onion skin left under this outline, mm; absent where tabs hold it or nothing need. */
  readonly skin?: number;
}

/** All that one setup of one sheet does, in the order it is done. */
export interface SetupPlan {
  readonly sheet: string;
  readonly setup: Face;
  readonly operations: readonly Operation[];
}
