/** A kind of cut, as far as feeds depend on it. */
export interface Cut {
  /**
   * "slot": as wide as the cutter; "clearing": one stepover at its side; "engaged": never more than `width`, whatever
   * way it goes; "finishing": only the allowance; "drilling": straight down.
   */
  readonly kind: "slot" | "clearing" | "engaged" | "finishing" | "drilling";
  /** How far the tip goes below the face that is up, in all, mm. */
  readonly depth: number;
  /** Width of wood at the cutter's side, mm, where it is not the kind's usual one. */
  readonly width?: number;
}

/** Wood that roughing leaves on a wall for the finishing pass, mm. Common practice. */
export const FINISHING_ALLOWANCE = 0.3;

/** Width of wood at the side of a cutter of this diameter, mm. */
export function widthOf(cut: Cut, diameter: number, stepover: number): number {
  if (cut.width !== undefined) return cut.width;
  if (cut.kind === "clearing") return stepover;
  if (cut.kind === "finishing") return FINISHING_ALLOWANCE;
  return diameter;
}
