import type { Placement, Region } from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import type { Turn } from "./turns.ts";

/** A kind of sheet one can buy or has lying about. */
export interface Stock {
  readonly id: string;
  readonly material: string;
  /** x, y of the bounding box, mm. */
  readonly size: readonly [number, number];
  /** The real outline with holes, where it is not the whole rectangle: an irregular offcut. */
  readonly outline: Region<"sheet"> | null;
  /** The way the face grain runs. */
  readonly grain: "x" | "y";
  /** How many there are; null: as many as needed. */
  readonly count: number | null;
  /** Price of one in the maker's own currency; null: not known. */
  readonly price: number | null;
  /** Where nothing may be cut: clamps, screws, knots. */
  readonly keepOuts: readonly Region<"sheet">[];
}

export interface PlacedPart {
  readonly part: string;
  /** Never a flip: parts lie face A up. `sheetFromPanel`. */
  readonly placement: Placement<"sheet", "panel">;
}

export interface Sheet {
  /** "sheet-1" … */
  readonly id: string;
  readonly stock: Stock;
  readonly parts: readonly PlacedPart[];
}

/** What nesting was asked to keep. All mm. */
export interface NestRules {
  /** Least wood between parts' outlines: cutter diameter plus web. */
  readonly spacing: number;
  /** Least wood between a part and the sheet's edge. */
  readonly margin: number;
}

/** A part that is laid down by hand. */
export interface Lock {
  readonly part: string;
  /** Which of the sheets, from 1. */
  readonly sheet: number;
  /** The stock that this sheet is of. */
  readonly stock: string;
  readonly placement: Placement<"sheet", "panel">;
}

export interface NestJob {
  readonly parts: readonly Part[];
  readonly stocks: readonly Stock[];
  readonly rules: NestRules;
  readonly seed: number;
  /** Turns that single parts may take, by part, on a sheet whose grain runs along x; absent: all that the grain allows. */
  readonly turns?: Readonly<Record<string, readonly Turn[]>>;
  /** Parts that lie where they are, well or not: the others nest around them. Absent: none. */
  readonly locks?: readonly Lock[];
}

export interface Layout {
  readonly sheets: readonly Sheet[];
  /** Parts that found no place; findings say why. */
  readonly unplaced: readonly string[];
  readonly findings: readonly Finding[];
}
