import { el, type Markup, pathData, type View } from "@dryfit/drawing";
import type { DxfLoop, DxfReading, LayerMeaning } from "@dryfit/dxf";
import { type Box, boundsOf } from "@dryfit/geometry";
import type { Meanings } from "./judge-file.ts";

/** The contours of a DXF reading as lines of the sheet, by what their layers mean; each knows its line in the file. */
export function drawingMarks(view: View, reading: DxfReading, meanings: Meanings): Markup {
  return [
    ...reading.loops.map((loop) => contour(view, loop, meanings[loop.layer] ?? null)),
    ...reading.paths.map(({ path, line }) => mark(line, "open", pathData(view, [path]))),
  ].join("");
}

/** What the names of our own layers mean, in words. */
export function layerWords(meaning: LayerMeaning | null, length: (mm: number) => string): string {
  switch (meaning?.kind) {
    case undefined:
      return "not one of dryfit's layers";
    case "outside":
      return "cut through, outside the line";
    case "inside":
      return "cut through, inside the line";
    case "recess":
      return `recess ${length(meaning.depth)} deep, face ${meaning.face}`;
    case "bore":
      return meaning.depth === null
        ? `bore ${length(meaning.diameter)} wide, through`
        : `bore ${length(meaning.diameter)} wide, ${length(meaning.depth)} deep, face ${meaning.face}`;
    case "label":
      return "lettering, not cut";
    case "sheet-edge":
      return "the sheet's edge, not cut";
  }
}

/** All that is drawn; null where nothing is. mm. */
export function boxOf({ loops, paths }: DxfReading): Box | null {
  const boxes = [...loops.map(({ loop }) => boundsOf(loop)), ...paths.map(({ path }) => boundsOf(path))];
  if (boxes.length === 0) return null;
  return boxes.reduce((a, b) => ({
    min: { x: Math.min(a.min.x, b.min.x), y: Math.min(a.min.y, b.min.y) },
    max: { x: Math.max(a.max.x, b.max.x), y: Math.max(a.max.y, b.max.y) },
  }));
}

function contour(view: View, { loop, line }: DxfLoop, meaning: LayerMeaning | null): Markup {
  const kind = {
    outside: "outline",
    inside: "outline inside",
    recess: `recess ${meaning && "face" in meaning && meaning.face === "B" ? "face-b hidden" : ""}`,
    bore: "bore",
    label: "lettering",
    "sheet-edge": "sheet-edge",
    other: "outline",
  }[meaning?.kind ?? "other"];
  return mark(line, kind, pathData(view, [loop]));
}

function mark(line: number, kind: string, d: string): Markup {
  return el("path", { class: `contour ${kind}`, d, "data-line": line });
}
