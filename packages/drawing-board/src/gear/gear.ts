/** A thing that is to stand in the case. mm; height with its plugs and knobs. */
export interface GearItem {
  readonly name: string;
  readonly width: number;
  readonly depth: number;
  readonly height: number;
  readonly count: number;
  readonly row: GearRow;
  readonly plugs: PlugPlace;
}

export const GEAR_ROWS = ["floor", "tier", "under"] as const;
export type GearRow = (typeof GEAR_ROWS)[number];

/** Which edges cables leave by, and so need room beside. */
export const PLUG_PLACES = ["none", "sides", "back", "both"] as const;
type PlugPlace = (typeof PLUG_PLACES)[number];

/** Sizes by kind, to start from: width, depth, height with knobs. Common practice, no source; measure yours. */
export const GEAR_KINDS: readonly (readonly [kind: string, size: readonly [number, number, number]])[] = [
  ["mini pedal", [45, 94, 50]],
  ["small pedal", [62, 112, 55]],
  ["standard pedal", [66, 122, 60]],
  ["treadle-switch pedal", [73, 128, 58]],
  ["double pedal", [98, 118, 60]],
  ["wide pedal", [135, 115, 60]],
  ["large pedal", [240, 150, 65]],
  ["treadle, volume or wah", [95, 240, 80]],
  ["supply", [200, 85, 40]],
];

/** Room that a flat plug takes beside the edge it stands in, and between neighbours without one. Common practice, no source. */
export const PLUG_MM = 14;
export const FINGER_MM = 8;
/** Air round a supply. Common practice, no source. */
export const AIR_MM = 10;
