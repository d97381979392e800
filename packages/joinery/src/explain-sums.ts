import type { Design } from "./design.ts";
import type { Explanation } from "./explain.ts";
import { trimmed } from "./length.ts";

/** A number and what it is called. */
export type Term = readonly [name: string, value: number];

export type Given = Readonly<
  Record<
    | "width"
    | "depth"
    | "front"
    | "back"
    | "t"
    | "thinnest"
    | "thickest"
    | "tongue"
    | "length"
    | "side"
    | "end"
    | "stop"
    | "cutter"
    | "r"
    | "dropFront"
    | "dropBack",
    Term
  >
>;

/** The design's own numbers, by the names of its file. */
export function given(design: Design): Given {
  const { inside, sheet, joint, cheek, cutter } = design;
  const readings = sheet.readings.length > 1;
  return {
    width: ["inside.width", inside.width],
    depth: ["inside.depth", inside.depth],
    front: ["inside.front", inside.front],
    back: ["inside.back", inside.back],
    t: [readings ? "mean thickness" : "thickness", sheet.thickness.mean],
    thinnest: ["thinnest reading", sheet.thickness.min],
    thickest: ["thickest reading", sheet.thickness.max],
    tongue: ["joint.tongue.thickness", joint.tongue.thickness],
    length: ["joint.tongue.length", joint.tongue.length],
    side: ["joint.clearance.side", joint.clearance.side],
    end: ["joint.clearance.end", joint.clearance.end],
    stop: ["joint.stop", joint.stop],
    cutter: ["cutter", cutter],
    r: ["cutter radius", cutter / 2],
    dropFront: ["cheek.feet.front.drop", cheek.feet.front.drop],
    dropBack: ["cheek.feet.back.drop", cheek.feet.back.drop],
  };
}

export function entry(
  id: string,
  what: string,
  { names, figures }: { readonly names: string; readonly figures: string },
  value: number,
  unit: Explanation["unit"] = "mm",
): Explanation {
  return { id, what, names, figures, value, unit };
}

/** A sum written twice from one template, with names and with figures, so that the two cannot differ. */
export function sum(
  text: TemplateStringsArray,
  ...terms: readonly Term[]
): { readonly names: string; readonly figures: string } {
  const write = (term: (t: Term) => string): string =>
    text.reduce((line, part, i) => line + term(terms[i - 1]!) + part);
  return { names: write(([name]) => name), figures: write(([, value]) => trimmed(value, 6)) };
}
