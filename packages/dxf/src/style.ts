import { readLayerName } from "./layer.ts";
import type { Mark } from "./marks.ts";

/** The layers that hold something, through cuts first, reference layers last. */
export function layersOf(marks: readonly Mark[]): readonly string[] {
  const names = [...new Set(marks.map((mark) => mark.layer))].filter((name) => name !== "0");
  return names.sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));
}

/** Standard colour numbers, so that a reader who looks at colours alone can tell the operations apart. */
export function colourOf(layer: string): number {
  return colours[readLayerName(layer)?.kind ?? "foreign"];
}

const colours = {
  outside: 1,
  inside: 3,
  recess: 5,
  bore: 6,
  label: 8,
  "sheet-edge": 9,
  foreign: 7,
} as const;

function rank(layer: string): number {
  return Object.keys(colours).indexOf(readLayerName(layer)?.kind ?? "foreign");
}
