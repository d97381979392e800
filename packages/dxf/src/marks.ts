import {
  areaOf,
  CUT_MM,
  type Loop,
  lengthOf,
  type Placement,
  type Point,
  place,
  placeCurve,
  placement,
  type Region,
  rectangle,
  runOut,
  SAME_POINT_MM,
  segments,
  union,
} from "@dryfit/geometry";
import type { Feature, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { labelSpot } from "./label.ts";
import { layerName } from "./layer.ts";

/** One thing to draw, on its layer. A circle is kept apart from other loops, as the file keeps it apart. */
export type Mark =
  | { readonly kind: "loop"; readonly layer: string; readonly loop: Loop }
  | { readonly kind: "circle"; readonly layer: string; readonly centre: Point; readonly radius: number }
  | {
      readonly kind: "text";
      readonly layer: string;
      /** The middle of the words. */
      readonly at: Point;
      readonly height: number;
      /** A quarter turn counter-clockwise, where the part is too narrow to write across. */
      readonly turned: boolean;
      readonly text: string;
    };

export interface MarkOptions {
  /** Radius of the cutter that clears recesses, mm: how far a recess that lies open at the part's edge is drawn beyond it. */
  readonly runOut: number;
  readonly sheetEdge: boolean;
  readonly labels: boolean;
}

/** All that is drawn for one sheet, in the sheet frame. */
export function sheetMarks(sheet: Sheet, parts: readonly Part[], options: MarkOptions): readonly Mark[] {
  const partsById = new Map(parts.map((part) => [part.id, part]));
  const marks = sheet.parts.flatMap((placed) => {
    const part = partsById.get(placed.part);
    if (!part) throw new RangeError(`${sheet.id} holds ${placed.part}, which is not among the parts`);
    return marksOf(part, placed.placement, options);
  });
  return options.sheetEdge ? [...marks, ...edgeOf(sheet)] : marks;
}

/** All that is drawn for one part, in its panel frame. */
export function partMarks(part: Part, options: MarkOptions): readonly Mark[] {
  return marksOf(part, placement({ x: 0, y: 0 }), options);
}

function marksOf(
  part: Part,
  fileFromPanel: Placement<string, "panel">,
  options: MarkOptions,
): readonly Mark[] {
  const moved = ({ layer, loop }: LayeredLoop): Mark => markOf(layer, placeCurve(fileFromPanel, loop));
  const cuts = [
    { layer: layerName({ kind: "outside" }), loop: part.outline },
    ...part.features.flatMap(openingLoops),
    ...recessLoops(part, options.runOut),
  ].map(moved);
  const marks = [...cuts, ...part.features.flatMap((feature) => boreMarks(feature, fileFromPanel))];
  return options.labels ? [...marks, labelOf(part, marks)] : marks;
}

interface LayeredLoop {
  readonly layer: string;
  readonly loop: Loop<"panel">;
}

function openingLoops(feature: Feature): readonly LayeredLoop[] {
  return feature.kind === "opening" ? [{ layer: layerName({ kind: "inside" }), loop: feature.loop }] : [];
}

/** Recesses of one depth and face are one area: where two meet, only the common contour is drawn. */
function recessLoops(part: Part, by: number): readonly LayeredLoop[] {
  const byLayer = new Map<string, Region<"panel">[]>();
  for (const feature of part.features) {
    if (feature.kind !== "recess") continue;
    const layer = layerName(feature);
    byLayer.set(layer, [...(byLayer.get(layer) ?? []), ...drawnOut(feature.region, part.outline, by)]);
  }
  return [...byLayer].flatMap(([layer, regions]) =>
    (regions.length > 1 ? union(regions) : regions)
      .flatMap((region) => [region.outer, ...region.holes])
      .map((loop) => ({ layer, loop: loop as Loop<"panel"> })),
  );
}

/** The recess run out over the part's edge; one that lies inside the part keeps its own vertices. */
function drawnOut(recess: Region<"panel">, outline: Loop<"panel">, by: number): readonly Region<"panel">[] {
  if (by === 0) return [recess];
  const drawn = runOut(recess, outline, by);
  const gained = areaOf(drawn) - areaOf([recess]);
  return gained > CUT_MM * lengthOf(recess.outer) ? drawn : [recess];
}

function boreMarks(feature: Feature, fileFromPanel: Placement<string, "panel">): readonly Mark[] {
  if (feature.kind !== "bore") return [];
  const { diameter, depth, face } = feature;
  const layer = layerName(
    depth === null ? { kind: "bore", diameter, depth } : { kind: "bore", diameter, depth, face },
  );
  return [{ kind: "circle", layer, centre: place(fileFromPanel, feature.at), radius: diameter / 2 }];
}

/** "cheek-left: face A up (inside)", written where it crosses no line. */
function labelOf(part: Part, marks: readonly Mark[]): Mark {
  const text = `${part.id}: face A up (${part.faceNames.A})`;
  return { kind: "text", layer: layerName({ kind: "label" }), text, ...labelSpot(marks, text) };
}

function edgeOf(sheet: Sheet): readonly Mark[] {
  const layer = layerName({ kind: "sheet-edge" });
  const { outline, size } = sheet.stock;
  if (outline) return [outline.outer, ...outline.holes].map((loop) => markOf(layer, loop));
  return [markOf(layer, rectangle({ x: 0, y: 0 }, { x: size[0], y: size[1] }))];
}

function markOf(layer: string, loop: Loop): Mark {
  const circle = asCircle(loop);
  return circle ? { kind: "circle", layer, ...circle } : { kind: "loop", layer, loop };
}

/** Centre and radius where every segment of the loop is an arc of one circle. */
function asCircle(loop: Loop): { centre: Point; radius: number } | null {
  const parts = segments(loop);
  const first = parts[0];
  if (first?.kind !== "arc") return null;
  const same = parts.every(
    (arc) =>
      arc.kind === "arc" &&
      Math.hypot(arc.centre.x - first.centre.x, arc.centre.y - first.centre.y) < SAME_POINT_MM &&
      Math.abs(arc.radius - first.radius) < SAME_POINT_MM,
  );
  return same ? { centre: first.centre, radius: first.radius } : null;
}
