import type { Finding } from "@dryfit/joinery";
import type { Stock } from "./layout.ts";
import type { Rect } from "./rectangles.ts";

/** A part as the rectangle that is sawn first; grain and size in its panel frame, mm. */
export interface Blank {
  readonly id: string;
  readonly material: string;
  readonly size: readonly [number, number];
  readonly grain: "x" | "y" | "free";
}

/** All mm. */
export interface SawRules {
  /** Wood that the blade turns to dust. */
  readonly kerf: number;
  /** What is taken off every edge of a sheet, blade included: factory edges are bruised and seldom square. */
  readonly trim: number;
  /** How often the direction may change: 2 is strips, then lengths; 3 lets a length be sawn narrower once more. */
  readonly stages: number;
}

/** Blanks whose measure along a panel axis must come out the same: sawn at one setting of the fence, from one strip. */
export interface Together {
  readonly blanks: readonly string[];
  readonly axis: "x" | "y";
}

export interface SawJob {
  readonly blanks: readonly Blank[];
  readonly stocks: readonly Stock[];
  readonly rules: SawRules;
  readonly together: readonly Together[];
  readonly seed: number;
}

/** A cut right across a board. `near` lies between the fence and the blade, `far` beyond the blade. */
export interface SawCut {
  /** 1 makes strips, 2 lengths, 3 what is narrower; 0 takes off an edge that is not trusted. */
  readonly stage: number;
  readonly grain: "along" | "across";
  readonly board: string;
  /** The cut is at this x (running along y) or at this y. */
  readonly axis: "x" | "y";
  /** The blade's near side on the sheet; wood is gone from here on, a kerf wide. */
  readonly at: number;
  /** What the fence is set to: from the board's near edge to the blade. */
  readonly setting: number;
  readonly near: Board | null;
  readonly far: Board | null;
}

/**
 * A rectangle of wood with a name: the sheet's, a strip's ("A"), a length's ("A1") or, where it is done, its blank's.
 * What is left of a board keeps the board's name.
 */
export interface Board extends Rect {
  readonly name: string;
  /** The blank that it is; null where it is sawn further, or is a rest. */
  readonly blank: string | null;
}

export interface SawnBlank extends Rect {
  readonly id: string;
  /** A quarter turn stands between the panel and the sheet. */
  readonly turned: boolean;
}

export interface SawSheet {
  readonly id: string;
  readonly stock: Stock;
  readonly blanks: readonly SawnBlank[];
  readonly cuts: readonly SawCut[];
  /** Rests large enough to keep, largest first, without the untrusted edges. */
  readonly rests: readonly Rect[];
}

export interface SawPlan {
  readonly sheets: readonly SawSheet[];
  readonly unplaced: readonly string[];
  readonly findings: readonly Finding[];
  /** As many steps give the same plan again. */
  readonly steps: number;
}
