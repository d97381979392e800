/** What a maker with a hand router owns, lengths in mm. */
export interface HandTools {
  readonly name: string;
  /** Straight edges of the router's base: how far each lies from the cutter's middle. */
  readonly baseEdges: readonly { readonly id: string; readonly toMiddle: number }[];
  /** Whether the router can be hung under a table with a fence. */
  readonly table: boolean;
  readonly cutters: readonly HandCutter[];
  readonly bushes: readonly Bush[];
  readonly template: {
    /** Of the board that templates are cut from. */
    readonly thickness: number;
    /** Air that a bush needs in a slot to slide, over both sides. */
    readonly running: number;
    /** Board left round what is cut out of it, for the router to stand on. */
    readonly margin: number;
  };
  readonly saw: {
    /** Width of wood that the blade takes. */
    readonly kerf: number;
    /** Taken off every edge of a sheet first, blade included. */
    readonly trim: number;
    /** How often the direction of cuts may change. */
    readonly stages: number;
  };
  readonly laser: {
    /** Width of wood that the beam burns away. */
    readonly kerf: number;
    /** Who allows for it: it is drawn in, or the service does it. */
    readonly allowance: "drawn" | "service";
  };
}

/** A router cutter: straight, or a slotting disc on an arbor (for a table). */
export interface HandCutter {
  readonly id: string;
  readonly kind: "straight" | "slotting";
  readonly diameter: number;
  /** Of the cutting edge along the axis; a slotting disc's thickness. */
  readonly cuttingLength: number;
  /** How far the tip stands below the base with the shank held to its mark. */
  readonly reach: number;
  /** What a slotting disc sits on. */
  readonly arbor: number | null;
  /** Deepest single pass. */
  readonly depthPerPass: number;
  readonly bearings: readonly Bearing[];
}

export interface Bearing {
  readonly diameter: number;
  readonly at: "tip" | "shank";
}

export interface Bush {
  readonly id: string;
  /** Outside. */
  readonly diameter: number;
  /** How far it stands out of the base. */
  readonly projection: number;
}

/** What runs along a template: a bush in the router's base, or a bearing on the cutter. */
export type Guide =
  | { readonly kind: "bush"; readonly id: string; readonly diameter: number; readonly projection: number }
  | { readonly kind: "bearing"; readonly diameter: number; readonly at: "tip" | "shank" };
