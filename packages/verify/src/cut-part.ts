import type { Region } from "@dryfit/geometry";

/** The wood that is left between two depths: the same section all the way from `from` to `to`. */
export interface CutLayer {
  /** Depth from face A, mm; `from` < `to`. */
  readonly from: number;
  readonly to: number;
  readonly solid: readonly Region<"panel">[];
}

/**
 * A part as the programs cut it, in its panel frame: a stack of layers from face A (depth 0) to face B.
 *
 * Shape: `layers` in order of depth, without gaps or overlaps, from 0 to `thickness`; a layer may be empty.
 * Tabs and onion skin are sanded off: they count as removed. Offcuts and the web around the part are left out.
 * Edges are flattened chains within FLATTENING_MM of the cut, so their vertices carry no bulge.
 */
export interface CutPart {
  readonly part: string;
  /** The reading it was cut at, mm: it decides where floors lie that are referenced from the other face. */
  readonly thickness: number;
  readonly layers: readonly CutLayer[];
}
