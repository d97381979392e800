export const presetNames = [
  "rectangle",
  "circle",
  "slot",
  "handle",
  "vent",
  "cable-hole",
  "round-audio",
  "mains-inlet",
  "mains-inlet-switched",
  "jack",
  "jack-plastic",
  "dc-inlet",
  "five-pin",
  "usb",
  "network",
  "footswitch",
] as const;

export type PresetName = (typeof presetNames)[number];

/** A preset, or contours drawn in a file. */
export type ShapeName = PresetName | "drawing";

/** The measures of a cutout; mm, except `count`. What a preset leaves open must be given. */
export interface Preset {
  readonly title: string;
  /** Default of each measure; null: the design must give it. "cutter" is the cutter's radius. */
  readonly size: Readonly<Record<string, number | null | "cutter">>;
  /** For makers: what to check with the part in hand. */
  readonly hint: string;
}

/**
 * Cutouts by name. Measures of bought parts are common practice and differ between makers: each one may be
 * changed in the design, and the build sheet says "check against the part in your hand".
 */
export const presets: Readonly<Record<ShapeName, Preset>> = {
  drawing: { title: "Cutout", size: {}, hint: "as drawn in its file" },
  rectangle: {
    title: "Opening",
    size: { width: null, height: null, corner: "cutter" },
    hint: "width across, height up, corner radius",
  },
  circle: { title: "Hole", size: { hole: null }, hint: "hole is the diameter" },
  slot: { title: "Slot", size: { width: null, height: null }, hint: "both ends are round" },
  handle: {
    title: "Handle",
    size: { width: 100, height: 32 },
    hint: "a hand wants 100 × 30 or more",
  },
  vent: {
    title: "Vent",
    size: { count: 5, width: 40, height: 8, pitch: 16 },
    hint: "count slots above each other, pitch from middle to middle",
  },
  "cable-hole": { title: "Cable hole", size: { hole: 30 }, hint: "plugs must pass: 25 to 35" },
  "round-audio": {
    title: "Round audio connector",
    size: { hole: 24, apart: 19, rise: 24, screw: 3.2 },
    hint: "two screws on one diagonal, apart across and rise up",
  },
  "mains-inlet": {
    title: "Mains inlet",
    size: { width: 27.5, height: 20, corner: "cutter", apart: 40, rise: 0, screw: 3.2 },
    hint: "screw flange; a snap-in inlet holds in 3 mm of wood at most",
  },
  "mains-inlet-switched": {
    title: "Mains inlet with fuse and switch",
    size: { width: 28, height: 48, corner: "cutter", apart: 40, rise: 0, screw: 3.2 },
    hint: "types differ: measure yours",
  },
  jack: {
    title: "6.35 mm jack",
    size: { hole: 10, pocket: 26, leave: 3 },
    hint: "a bush is 6 to 10 mm long: the pocket behind leaves 3 mm of wood",
  },
  "jack-plastic": {
    title: "6.35 mm jack, plastic bush",
    size: { hole: 11.2, pocket: 26, leave: 3 },
    hint: "a bush is 6 to 10 mm long: the pocket behind leaves 3 mm of wood",
  },
  "dc-inlet": {
    title: "Round supply inlet",
    size: { hole: 12, pocket: 24, leave: 3 },
    hint: "8, 11 or 12 by type",
  },
  "five-pin": {
    title: "Five-pin connector",
    size: { hole: 15.5, apart: 22.5, rise: 0, screw: 3.1 },
    hint: "flange screws 22 to 23 apart",
  },
  usb: {
    title: "Square data connector",
    size: { width: 15, height: 8, corner: "cutter", apart: 28, rise: 0, screw: 3.1 },
    hint: "panel extension; others have screws 30 apart",
  },
  network: {
    title: "Network connector",
    size: { width: 15.9, height: 13.2, corner: "cutter", apart: 28, rise: 0, screw: 3.1 },
    hint: "panel jack",
  },
  footswitch: {
    title: "Footswitch",
    size: { hole: 12, pocket: 30, leave: 3 },
    hint: "nut on both sides of the wood that is left",
  },
};
