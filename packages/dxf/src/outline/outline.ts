import type { DrawingRef, DrawnShape, Finding } from "@dryfit/joinery";
import { withoutDoubles } from "./doubles.ts";
import type { Leftover, Strokes } from "./drawing.ts";
import { dxfStrokes } from "./dxf-strokes.ts";
import { joinedUp } from "./join.ts";
import { type Affine, curveOf, movedPiece } from "./piece.ts";
import { figure, isError, type PlacedCurve, told } from "./place.ts";
import { svgStrokes } from "./svg-strokes.ts";

/**
 * The contours of somebody's DXF or SVG file, in mm, y up: loose strokes chained, splines, ellipses and Béziers as
 * true arcs, blocks and transforms carried out. What is wrong is told with its place in the file, all of it.
 *
 * `wants` says whether closed contours are asked for, or one open line. `field` is the design's key for the file,
 * for what only the design can say.
 */
export function readOutline(
  text: string,
  ref: DrawingRef,
  { wants, field }: { readonly wants: "contours" | "line"; readonly field: string },
): DrawnShape {
  const { file } = ref;
  const read = /\.svg$/i.test(file) ? svgStrokes(text) : dxfStrokes(text);
  if (!("strokes" in read)) {
    const kind = /\.svg$/i.test(file) ? "an SVG" : "a DXF";
    return failed([
      {
        ...told(
          file,
          read.line,
          "drawing_unreadable",
          `This is not ${kind} file that can be read: ${read.reason}.`,
        ),
        wayOut: "Export it again, as text DXF or plain SVG.",
      },
    ]);
  }
  const scale = scaleOf(read, ref, field);
  if (scale.mm === null) return failed(scale.findings);
  const kept = ofLayer(read, ref, field);
  const reading = { file, mm: scale.mm, isSvg: /\.svg$/i.test(file) };
  const placed = curvesOf(kept.strokes, scale.mm);
  const single = withoutDoubles(placed, reading);
  const chained = joinedUp(single.curves, reading, wants);
  return {
    ...chained,
    findings: [
      ...scale.findings,
      ...kept.findings,
      ...kept.leftovers.map((leftover) => leftoverFinding(file, leftover)),
      ...single.findings,
      ...(kept.findings.some(isError) ? [] : chained.findings),
    ],
  };
}

/** mm for one unit of the drawing; what the design says goes before what the file says. */
function scaleOf(
  { mmPerUnit }: Strokes,
  { file, units, scale }: DrawingRef,
  field: string,
): { readonly mm: number | null; readonly findings: readonly Finding[] } {
  const factor = typeof scale === "number" ? scale : 1;
  const given = units === null ? null : MM_PER[units];
  // What is fitted between two places has no need of units.
  if (given === null && mmPerUnit === null && scale !== "fit") {
    return {
      mm: null,
      findings: [
        {
          code: "drawing_no_units",
          severity: "error",
          path: field,
          message: `${file} does not say what its numbers mean: they may be millimetres, inches or pixels.`,
          numbers: {},
          wayOut: `Set ${field.replace(/\.file$/, ".units")} to mm, in or px, and check the size that comes out.`,
        },
      ],
    };
  }
  const differ = given !== null && mmPerUnit !== null && Math.abs(given / mmPerUnit - 1) > 1e-6;
  return {
    mm: (given ?? mmPerUnit ?? 1) * factor,
    findings: differ
      ? [
          {
            code: "drawing_units_differ",
            severity: "warning",
            path: field.replace(/\.file$/, ".units"),
            message: `${file} says that its unit is ${figure(mmPerUnit)} mm; the design's, ${figure(given)} mm, is used.`,
            numbers: { file: mmPerUnit, design: given },
            wayOut: "Leave units out if the file is right.",
          },
        ]
      : [],
  };
}

const MM_PER = { mm: 1, in: 25.4, px: 25.4 / 96 } as const;

function ofLayer({ strokes, leftovers }: Strokes, { file, layer }: DrawingRef, field: string) {
  const here = <T extends { readonly layer: string }>(list: readonly T[]): readonly T[] =>
    layer === null ? list : list.filter((one) => one.layer === layer);
  const found = here(strokes);
  const names = [...new Set(strokes.map((stroke) => stroke.layer))].filter((name) => name !== "");
  const findings: readonly Finding[] =
    found.length > 0
      ? []
      : [
          {
            code: "drawing_empty",
            severity: "error",
            path: layer === null ? field : field.replace(/\.file$/, ".layer"),
            message:
              layer === null ? `${file} draws nothing.` : `${file} draws nothing on a layer "${layer}".`,
            numbers: {},
            wayOut: names.length > 0 ? `It draws on ${names.join(", ")}.` : "Draw the contour in it.",
          },
        ];
  return { strokes: found, leftovers: here(leftovers), findings };
}

function curvesOf(strokes: Strokes["strokes"], mm: number): readonly PlacedCurve[] {
  const by: Affine = [mm, 0, 0, mm, 0, 0];
  return strokes.flatMap(({ piece, line }) => {
    const curve = curveOf(movedPiece(by, piece));
    return curve === null ? [] : [{ curve, line }];
  });
}

function leftoverFinding(file: string, { what, line, matters, reason }: Leftover): Finding {
  return {
    ...told(
      file,
      line,
      matters ? "drawing_stroke_unread" : "drawing_left_out",
      `${what} on line ${line} is left out: ${reason}.`,
      matters ? "error" : "note",
    ),
    ...(matters ? { wayOut: "Turn it into lines, arcs, polylines or splines before exporting." } : {}),
  };
}

function failed(findings: readonly Finding[]): DrawnShape {
  return { loops: [], paths: [], findings };
}
