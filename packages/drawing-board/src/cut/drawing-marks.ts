import {
  boreMark,
  el,
  hatchPattern,
  type Markup,
  openingMark,
  pathData,
  recessMark,
  type View,
} from "@dryfit/drawing";
import type { DxfLoop, DxfReading, LayerMeaning } from "@dryfit/dxf";
import { type Box, boundsOf, type Curve, regionsOf } from "@dryfit/geometry";
import type { Meanings } from "./judge-file.ts";

/** The contours of a DXF reading as lines of the sheet, by what their layers mean; each knows its line in the file. */
export function drawingMarks(view: View, reading: DxfReading, meanings: Meanings): Markup {
  return [
    ...hatches(view, reading, meanings),
    ...reading.loops.map((loop) => contour(view, loop, meanings[loop.layer] ?? null)),
    ...reading.paths.map(({ path, line }) => marked(line, "open", outline(view, path))),
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

/** Recesses filled with lines that stand the closer the deeper they are. */
function hatches(view: View, { loops }: DxfReading, meanings: Meanings): readonly Markup[] {
  return Object.entries(meanings).flatMap(([layer, meaning]) => {
    const here = loops.filter((each) => each.layer === layer);
    if (meaning?.kind !== "recess" || here.length > HATCHED_MAX) return [];
    const { depth, face } = meaning;
    const regions = regionsOf(here.map(({ loop }) => loop));
    return [
      el("defs", {}, hatchPattern(PREFIX, { depth, face })),
      el(
        "g",
        { class: "hatched" },
        ...regions.map((region) =>
          recessMark(view, { depth, face, region, middle: region.outer.vertices[0]! }, "A", PREFIX),
        ),
      ),
    ];
  });
}

/** Ids of this drawing's hatches begin with it. */
const PREFIX = "dropped";
/** Which of very many contours lie within each other takes long to tell. */
const HATCHED_MAX = 500;

function contour(view: View, { loop, line }: DxfLoop, meaning: LayerMeaning | null): Markup {
  switch (meaning?.kind) {
    case "inside":
      return marked(line, "", openingMark(view, loop));
    case "bore": {
      const { min, max } = boundsOf(loop);
      const centre = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
      const face = meaning.depth === null ? null : meaning.face;
      return marked(line, "", boreMark(view, { ...meaning, face, centre, loop }, "A"));
    }
    case "recess":
      return marked(line, meaning.face === "B" ? "recess face-b hidden" : "recess", outline(view, loop));
    case "label":
    case "sheet-edge":
      return marked(line, "uncut", outline(view, loop));
    default:
      return marked(line, "outline", outline(view, loop));
  }
}

function outline(view: View, curve: Curve): Markup {
  return el("path", { class: "contour", d: pathData(view, [curve]) });
}

function marked(line: number, kind: string, ...marks: Markup[]): Markup {
  return el("g", { class: kind, "data-line": line }, ...marks);
}
