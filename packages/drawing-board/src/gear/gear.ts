/** A thing that is to stand in the case. mm; height with its plugs and knobs. */
export interface GearItem {
  readonly name: string;
  readonly width: number;
  readonly depth: number;
  readonly height: number;
  readonly count: number;
  readonly row: "floor" | "tier" | "under";
  readonly plugs: PlugPlace;
}

/** Which edges cables leave by, and so need room beside. */
export type PlugPlace = "none" | "sides" | "top" | "all";
