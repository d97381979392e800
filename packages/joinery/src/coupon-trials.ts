import type { Design } from "./design.ts";

/** One thing that the coupon tries: a width or a depth, and the figure in the design that it stands for. */
export interface Trial {
  /** As the papers name it; places are counted from the plate's cut-off corner. */
  readonly letter: string;
  /** The housing's or the slot's width or depth, mm. */
  readonly size: number;
  /** What the design's clearance, or a laser's kerf, is where this one fits best, mm. */
  readonly clearance: number;
  /** True for the one that the design has now. */
  readonly now: boolean;
}

/** What is tried for a tongue in a housing. */
export interface CouponTrials {
  /** Once along the grain and once across it: plywood does not give way alike. */
  readonly widths: readonly Trial[];
  /** All as wide as the design's housings. */
  readonly depths: readonly Trial[];
}

/** Steps of a housing's width from one letter to the next, mm. */
const WIDTH_STEP = 0.05;
/** Steps of a housing's depth, mm. */
const DEPTH_STEP = 0.1;

const WIDTHS = "ABCDEFGH";
const DEPTHS = "PQRS";

/** What is tried for a laser: the sheet's own edge in slots, each right for another kerf. */
export function kerfTrials(design: Design): readonly Trial[] {
  const { thickness } = design.sheet;
  const right = thickness.mean + 2 * design.joint.clearance.side;
  return [...KERFS].map((letter, i) => ({
    letter,
    size: tidy(right - WIDTH_STEP * i),
    clearance: tidy(WIDTH_STEP * i),
    now: false,
  }));
}

/** Kerfs from 0 to 0.45 mm in plywood: common practice, no source. */
const KERFS = "ABCDEFGHIJ";

/** Widths from a tongue without air on, the design's own among them; depths about the design's own. */
export function couponTrials(design: Design): CouponTrials {
  // A layered case has no housings: its tongues are as thick as the sheet, and its slots are tried for the kerf.
  if (design.layers) return { widths: [], depths: [] };
  const { tongue, clearance } = design.joint;
  const width = (i: number) => tongue.thickness + 2 * clearance.side + WIDTH_STEP * (i - stepsBelow);
  const stepsBelow = Math.min(WIDTHS.length - 2, Math.floor((2 * clearance.side) / WIDTH_STEP + 1e-9));
  const depthsBelow = Math.min(1, Math.floor(clearance.end / DEPTH_STEP + 1e-9));
  return {
    widths: [...WIDTHS].map((letter, i) => ({
      letter,
      size: tidy(width(i)),
      clearance: tidy((width(i) - tongue.thickness) / 2),
      now: i === stepsBelow,
    })),
    depths: [...DEPTHS].map((letter, i) => ({
      letter,
      size: tidy(tongue.length + clearance.end + DEPTH_STEP * (i - depthsBelow)),
      clearance: tidy(clearance.end + DEPTH_STEP * (i - depthsBelow)),
      now: i === depthsBelow,
    })),
  };
}

/** "C" of the recess or slot "width-c-along"; null where it stands for none. */
export function couponLetter(feature: string): string | null {
  return /^(?:width|depth|kerf)-([a-z])(?![a-z])/.exec(feature)?.[1]?.toUpperCase() ?? null;
}

/** Sums of steps without their float noise. */
function tidy(mm: number): number {
  return Math.round(mm * 1000) / 1000;
}
