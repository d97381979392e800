import type { Face } from "@dryfit/joinery";

/** What a layer tells the reader to do with the contours on it. Depths and diameters in mm. */
export type LayerMeaning =
  | { readonly kind: "outside" }
  | { readonly kind: "inside" }
  | { readonly kind: "recess"; readonly depth: number; readonly face: Face }
  | { readonly kind: "bore"; readonly diameter: number; readonly depth: null }
  | { readonly kind: "bore"; readonly diameter: number; readonly depth: number; readonly face: Face }
  | { readonly kind: "label" }
  | { readonly kind: "sheet-edge" };

/** "RECESS_5-80_A": letters, digits, `_` and `-` only, which every release allows; `-` stands for the point. */
export function layerName(meaning: LayerMeaning): string {
  switch (meaning.kind) {
    case "outside":
      return "THROUGH_OUTSIDE";
    case "inside":
      return "THROUGH_INSIDE";
    case "recess":
      return `RECESS_${dashed(meaning.depth)}_${meaning.face}`;
    case "bore":
      return meaning.depth === null
        ? `BORE_${dashed(meaning.diameter)}_THROUGH`
        : `BORE_${dashed(meaning.diameter)}_${dashed(meaning.depth)}_${meaning.face}`;
    case "label":
      return "LABEL";
    case "sheet-edge":
      return "SHEET_EDGE";
  }
}

/** What one of our own layer names means; null for anybody else's. */
export function readLayerName(name: string): LayerMeaning | null {
  if (Object.hasOwn(fixedMeanings, name)) return fixedMeanings[name]!;
  const recess = /^RECESS_(\d+-\d\d)_([AB])$/.exec(name);
  if (recess) return { kind: "recess", depth: undashed(recess[1]!), face: recess[2] as Face };
  const through = /^BORE_(\d+-\d\d)_THROUGH$/.exec(name);
  if (through) return { kind: "bore", diameter: undashed(through[1]!), depth: null };
  const blind = /^BORE_(\d+-\d\d)_(\d+-\d\d)_([AB])$/.exec(name);
  if (!blind) return null;
  return {
    kind: "bore",
    diameter: undashed(blind[1]!),
    depth: undashed(blind[2]!),
    face: blind[3] as Face,
  };
}

const fixedMeanings: Readonly<Record<string, LayerMeaning>> = {
  THROUGH_OUTSIDE: { kind: "outside" },
  THROUGH_INSIDE: { kind: "inside" },
  LABEL: { kind: "label" },
  SHEET_EDGE: { kind: "sheet-edge" },
};

function dashed(length: number): string {
  return length.toFixed(2).replace(".", "-");
}

function undashed(text: string): number {
  return Number(text.replace("-", "."));
}
