/** A rectangle of wood in the sheet frame, mm. */
export interface SawBox {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** One cut of the saw, as a line on the sheet and as words in the list. */
export interface SawLine {
  readonly number: number;
  /** 1 makes strips, 2 lengths, 3 what is narrower; 0 takes off an edge that is not trusted. */
  readonly stage: number;
  /** The blade's path: as long as the board, as wide as the kerf. */
  readonly path: SawBox;
  readonly axis: "x" | "y";
  readonly board: string;
  /** What the fence is set to, in words; null where it stays as it is. */
  readonly setting: string | null;
  readonly grain: "along" | "across";
  /** What lies between fence and blade; null where that is waste. */
  readonly gives: string | null;
  /** What is left of the board, in words; null where nothing is. */
  readonly left: string | null;
}

export interface SawSheetData {
  /** "sheet-1". */
  readonly id: string;
  readonly size: readonly [number, number];
  readonly grain: "x" | "y";
  readonly blanks: readonly (SawBox & { readonly id: string; readonly words: string })[];
  readonly rests: readonly (SawBox & { readonly words: string })[];
  readonly avoid: readonly SawBox[];
  readonly cuts: readonly SawLine[];
  /** Share of the sheet that lies in blanks. */
  readonly yield: number;
}

export interface SawPlanData {
  readonly name: string;
  readonly revision: string;
  readonly material: string;
  readonly thickness: string;
  readonly kerf: string;
  readonly trim: string;
  readonly settings: number;
  readonly sheets: readonly SawSheetData[];
  readonly findings: readonly string[];
}
