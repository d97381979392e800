import { type LayerMeaning, layerName } from "@dryfit/dxf";
import type { Finding, Part } from "@dryfit/joinery";
import type { Service, ServiceLayers } from "./service.ts";

/** Our layer names to the service's, for all that these parts hold; labels and sheet edges stand in both. */
export function layerNames(parts: readonly Part[], layers: ServiceLayers): Readonly<Record<string, string>> {
  const names = meaningsOf(parts).map((meaning) => [layerName(meaning), serviceLayer(meaning, layers)]);
  return Object.fromEntries([
    ...names,
    [layerName({ kind: "label" }), layers.label ?? "LABEL"],
    [layerName({ kind: "sheet-edge" }), layers.sheetEdge ?? "SHEET_EDGE"],
  ]);
}

/** What the service's layers mean, by name: null for a layer of labels or edges. */
export function layerMeanings(
  parts: readonly Part[],
  layers: ServiceLayers,
): ReadonlyMap<string, LayerMeaning | null> {
  const cut = meaningsOf(parts).map((meaning) => [serviceLayer(meaning, layers), meaning] as const);
  return new Map<string, LayerMeaning | null>([
    ...[layers.label, layers.sheetEdge].flatMap((name) => (name === null ? [] : [[name, null] as const])),
    ...cut,
  ]);
}

/** Every layer that holds something to cut, with what lies on it. */
export function layerKinds(
  parts: readonly Part[],
  layers: ServiceLayers,
): readonly { readonly layer: string; readonly kind: "outside" | "inside" | "bore" | "recess" }[] {
  return meaningsOf(parts).map((meaning) => ({ layer: serviceLayer(meaning, layers), kind: meaning.kind }));
}

/** Two things that are not cut alike on one layer: nobody could tell them apart. */
export function checkLayers(parts: readonly Part[], { name, files }: Service): readonly Finding[] {
  const named = meaningsOf(parts).map((meaning) => ({
    layer: serviceLayer(meaning, files.layers),
    work:
      meaning.kind === "recess" || (meaning.kind === "bore" && meaning.depth !== null)
        ? layerName(meaning)
        : "through",
  }));
  const idle = [files.layers.label, files.layers.sheetEdge].flatMap((layer) =>
    layer === null ? [] : [{ layer, work: "not cut" }],
  );
  const works = new Map<string, Set<string>>();
  for (const { layer, work } of [...named, ...idle])
    works.set(layer, (works.get(layer) ?? new Set()).add(work));
  return [...works]
    .filter(([, kinds]) => kinds.size > 1)
    .map(([layer, kinds]) => ({
      code: "service_layers_ambiguous",
      severity: "error",
      path: "service.files.layers",
      message: `On the layer ${layer} of the ${name} would lie ${[...kinds].join(" and ")}: nobody could tell them apart.`,
      numbers: {},
      wayOut: "Give recesses a layer name with {depth} and {face}, and what is not cut a layer of its own.",
    }));
}

/** What is cut, and how. */
type CutMeaning = Extract<LayerMeaning, { kind: "outside" | "inside" | "recess" | "bore" }>;

function meaningsOf(parts: readonly Part[]): readonly CutMeaning[] {
  const found = parts.flatMap((part) => [
    { kind: "outside" } as const,
    ...part.features.map((f): CutMeaning => {
      if (f.kind === "opening") return { kind: "inside" };
      if (f.kind === "recess") return { kind: "recess", depth: f.depth, face: f.face };
      const { diameter, depth, face } = f;
      return depth === null ? { kind: "bore", diameter, depth } : { kind: "bore", diameter, depth, face };
    }),
  ]);
  return [...new Map(found.map((meaning) => [layerName(meaning), meaning])).values()];
}

function serviceLayer(meaning: CutMeaning, layers: ServiceLayers): string {
  switch (meaning.kind) {
    case "outside":
      return layers.outside;
    case "inside":
      return layers.inside;
    case "recess":
      return filled(layers.recess, { depth: dashed(meaning.depth), face: meaning.face });
    case "bore":
      return filled(layers.bore, {
        diameter: dashed(meaning.diameter),
        depth: meaning.depth === null ? "THROUGH" : dashed(meaning.depth),
        face: meaning.depth === null ? "A" : meaning.face,
      });
  }
}

function filled(pattern: string, words: Readonly<Record<string, string>>): string {
  return pattern.replace(/\{(\w+)\}/g, (_, word: string) => words[word] ?? "");
}

/** As our own layer names write lengths: `-` for the point, which every release allows. */
function dashed(length: number): string {
  return length.toFixed(2).replace(".", "-");
}
