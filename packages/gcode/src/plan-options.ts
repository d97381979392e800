import type { Machine } from "./machine.ts";

/** What a maker may choose about the cutting; all mm and radians. */
export interface PlanOptions {
  /** Climb: wood on the cutter's right. It leaves the cleaner face on most plywood; conventional pulls less. */
  readonly direction: Direction;
  /** Steepest ramp into wood. */
  readonly rampAngle: number;
  /** Wood that roughing leaves on every wall for one last pass at full depth, and which way roughing goes. Null: none. */
  readonly finish: { readonly allowance: number; readonly roughing: Direction } | null;
  /**
   * How pockets are cleared; "auto": whichever is quickest among those that keep to `engagement`, the most of the
   * cutter's rim that may cut at once, radians. Null: any, and where a method needs an angle, the stepover's.
   */
  readonly clearing: {
    readonly method: "auto" | "contour" | "raster" | "engagement";
    readonly engagement: number | null;
  };
  /**
   * Whether a larger cutter roughs a recess, where it gets in, and the one that fits clears the rest: corners, necks
   * and the walls' last pass. "auto": where that saves time, the change counted.
   */
  readonly rest: "auto" | "always" | "never";
  /** Depth of a first light pass that scores the veneer of the face that is up; 0: none. */
  readonly score: number;
  /** What holds the parts while their outlines are cut. */
  readonly hold: Hold;
  /** Radius of the arc that leads off a wall, where there is room for it. */
  readonly lead: number;
  /** How far past the outline an open recess is cut, beyond the cutter's radius. */
  readonly runOut: number;
  /** Pins that find the turned sheet's place; `spread` tells unlike spacings apart, `depth` is in the bed's board. */
  readonly pins: { readonly diameter: number; readonly spread: number; readonly depth: number };
}

export type Direction = "climb" | "conventional";

export type Hold =
  | {
      readonly kind: "tabs";
      /** Wood at a tab's narrowest, and its height over the sheet's underside. */
      readonly width: number;
      readonly height: number;
      /** One tab for so much of the outline. */
      readonly every: number;
    }
  /** `finalPass`: when all outlines are down to the skin, a last pass cuts it; else it is cut by hand. */
  | { readonly kind: "skin"; readonly height: number; readonly finalPass: boolean };

/** Ramps 2 to 5 degrees, tabs 3 to 6 mm wide and 1 to 2 mm high, skins 0.2 to 0.5 mm: common practice. */
export const PLAN_OPTIONS: PlanOptions = {
  direction: "climb",
  rampAngle: (5 * Math.PI) / 180,
  finish: null,
  clearing: { method: "auto", engagement: null },
  rest: "auto",
  score: 0,
  hold: { kind: "tabs", width: 5, height: 1.5, every: 350 },
  lead: 1,
  runOut: 0.2,
  pins: { diameter: 6, spread: 40, depth: 6 },
};

/** As the machine file says. */
export function optionsOf({
  cutting,
  pins: { diameter, depth },
}: Pick<Machine, "cutting" | "pins">): PlanOptions {
  return { ...PLAN_OPTIONS, ...cutting, pins: { ...PLAN_OPTIONS.pins, diameter, depth } };
}
