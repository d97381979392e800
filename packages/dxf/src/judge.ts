import {
  areaOf,
  type Box,
  boundsOf,
  CUT_MM,
  type Defect,
  defects,
  distanceTo,
  intersection,
  lengthOf,
  pathOf,
  pointAt,
  regionsOf,
  segments,
  signedArea,
} from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import { type DxfLoop, type DxfPlace, type DxfReading, readDxf } from "./read.ts";

export interface JudgeOptions {
  /** Named in the findings. */
  readonly file: string;
  /** Layers that are not cut: labels, the sheet's edge. */
  readonly referenceLayers: readonly string[];
}

/**
 * What a cutting service would send the file back for: no units, contours that are open, doubled or
 * crossing, text or curves it cannot follow on a layer that is cut.
 */
export function judgeDxf(text: string, options: Partial<JudgeOptions> = {}): readonly Finding[] {
  const file = options.file ?? "drawing.dxf";
  const reference = options.referenceLayers ?? ["LABEL", "SHEET_EDGE"];
  const reading = readDxf(text, file);
  if (reading.findings.length > 0) return reading.findings;
  const isCut = (thing: { readonly layer: string }) => !reference.includes(thing.layer);
  const loops = reading.loops.filter(isCut);
  const crossed = loops.filter((found) => defects(found.loop).some(isCrossing));
  const empty = loops.filter((found) => !crossed.includes(found) && enclosesNothing(found));
  const tell = (code: keyof typeof sentences, place: DxfPlace & { layer: string }, detail = "") =>
    finding(file, code, place, detail);
  return [
    ...unitFindings(file, reading),
    ...(loops.length === 0 ? [nothingToCut(file)] : []),
    ...reading.paths.filter(isCut).map((place) => tell("dxf_open_contour", place)),
    ...empty.map((place) => tell("dxf_empty_contour", place)),
    ...reading.texts.filter(isCut).map((place) => tell("dxf_text_on_cut_layer", place)),
    ...reading.unread
      .filter(isCut)
      .map((place) => tell("dxf_unknown_entity", place, `${place.type}: ${place.reason}`)),
    ...crossed.map((place) => tell("dxf_crossing_contour", place, "itself")),
    ...pairs(loops.filter((found) => !crossed.includes(found) && !empty.includes(found))).flatMap(
      ([a, b]) => {
        const relation = relationOf(a, b);
        if (relation === "apart") return [];
        const code = relation === "doubled" ? "dxf_double_contour" : "dxf_crossing_contour";
        return [tell(code, b, `the contour on line ${a.line}`)];
      },
    ),
  ];
}

const sentences = {
  dxf_open_contour: {
    say: () => "This line or curve does not close on itself, so it encloses nothing to cut out.",
    wayOut: "Join its ends, or move it to a layer that is not cut.",
  },
  dxf_empty_contour: {
    say: () => "This contour encloses no area.",
    wayOut: "Delete it, or draw it again.",
  },
  dxf_double_contour: {
    say: (detail: string) => `This contour lies on ${detail}: the cutter would run there twice.`,
    wayOut: "Delete one of the two.",
  },
  dxf_crossing_contour: {
    say: (detail: string) => `This contour crosses ${detail}.`,
    wayOut: "Move or trim it so that every contour stands free.",
  },
  dxf_text_on_cut_layer: {
    say: () => "There is text on a layer that is cut.",
    wayOut: "Move it to a label layer, or turn it into outlines if it should be cut.",
  },
  dxf_unknown_entity: {
    say: (detail: string) => `This cannot be followed by a cutter (${detail}).`,
    wayOut: "Turn it into lines, arcs and polylines before exporting.",
  },
} as const;

function finding(
  file: string,
  code: keyof typeof sentences,
  place: DxfPlace & { readonly layer: string },
  detail: string,
): Finding {
  const { say, wayOut } = sentences[code];
  const handle = place.handle === null ? "" : `, handle ${place.handle}`;
  return {
    code,
    severity: "error",
    path: `${file}:${place.line}`,
    message: `${say(detail)} (layer ${place.layer}${handle})`,
    numbers: { line: place.line },
    wayOut,
  };
}

/** R12 has no way to state units; any later release must. */
function unitFindings(file: string, reading: DxfReading): readonly Finding[] {
  if (reading.unitCode !== null && reading.unitCode !== 0) return [];
  const cannot = reading.release === "AC1009";
  return [
    {
      code: "dxf_no_units",
      severity: cannot ? "note" : "error",
      path: file,
      message: cannot
        ? "R12 files cannot state their unit; this one is read as millimetres."
        : "The header does not state the unit, so the file may open 25.4 times too large or small.",
      numbers: {},
      wayOut: cannot ? "Say mm when you hand it over." : "Set $INSUNITS to 4 (mm) or 1 (inch).",
    },
  ];
}

function nothingToCut(file: string): Finding {
  return {
    code: "dxf_nothing_to_cut",
    severity: "error",
    path: file,
    message: "The file holds no closed contour on a layer that is cut.",
    numbers: {},
    wayOut: "Draw the parts as closed contours.",
  };
}

function isCrossing({ kind }: Defect): boolean {
  return kind === "crossing" || kind === "touching";
}

function enclosesNothing({ loop }: DxfLoop): boolean {
  return Math.abs(signedArea(loop)) < CUT_MM * lengthOf(loop);
}

/**
 * Contours of one layer must lie apart or one inside the other, and share no stretch.
 * On different layers they may cross (a recess run out over an edge does), but not be the same contour.
 */
function relationOf(a: DxfLoop, b: DxfLoop): "apart" | "doubled" | "crossing" {
  if (!overlap(boundsOf(a.loop), boundsOf(b.loop))) return "apart";
  if (a.layer !== b.layer)
    return share(a, b).every(Boolean) && share(b, a).every(Boolean) ? "doubled" : "apart";
  if (share(a, b).some(Boolean) || share(b, a).some(Boolean)) return "doubled";
  const shared = areaOf(intersection(regionsOf([a.loop]), regionsOf([b.loop])));
  const smaller = Math.min(Math.abs(signedArea(a.loop)), Math.abs(signedArea(b.loop)));
  const slack = CUT_MM * Math.min(lengthOf(a.loop), lengthOf(b.loop));
  return shared < slack || shared > smaller - slack ? "apart" : "crossing";
}

/** For each segment of `a`: whether a stretch of it lies on `b`, told from two neighbours among the samples. */
function share(a: DxfLoop, b: DxfLoop): readonly boolean[] {
  return segments(a.loop).map((segment) => {
    const path = pathOf([segment]);
    const length = lengthOf(path);
    const lies = Array.from(
      { length: SAMPLES },
      (_, i) => distanceTo(b.loop, pointAt(path, (length * (i + 0.5)) / SAMPLES)) < CUT_MM,
    );
    return lies.some((on, i) => on && lies[i + 1]);
  });
}

const SAMPLES = 8;

function pairs(loops: readonly DxfLoop[]): readonly (readonly [DxfLoop, DxfLoop])[] {
  return loops.flatMap((a, i) => loops.slice(i + 1).map((b) => [a, b] as const));
}

function overlap(a: Box, b: Box): boolean {
  return a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y;
}
