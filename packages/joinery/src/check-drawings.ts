import { boundsOf } from "@dryfit/geometry";
import type { Design } from "./design.ts";
import { drawingPlaces } from "./drawing.ts";
import { crestFit } from "./drawn-crest.ts";
import { cutShape } from "./drawn-opening.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength } from "./length.ts";

/** What is wrong with the drawings that a design asks for, and whether they go where they should. */
export function checkDrawings(design: Design): Finding[] {
  return drawingPlaces(design).flatMap(({ field, ref, wants }) => {
    const shape = design.drawn[field];
    if (shape === undefined) {
      return [
        finding(
          "drawing_missing",
          "error",
          field,
          `The drawing ${ref.file} is not at hand.`,
          {},
          "Put it beside the design file, or correct its name.",
        ),
      ];
    }
    if (shape.findings.some(({ severity }) => severity === "error")) return [...shape.findings];
    return [...shape.findings, ...(wants === "line" ? checkCrest(design) : checkCutout(design, field))];
  });
}

function checkCrest(design: Design): Finding[] {
  const fit = crestFit(design);
  if (fit === null || fit.off <= fit.most) return [];
  const say = (mm: number): string => formatLength(mm, design.units);
  return [
    finding(
      "drawing_off_ends",
      "error",
      "cheek.crest.scale",
      `The drawn crest runs ${say(fit.drawn.x)} and rises ${say(fit.drawn.y)}; from rail to rail it should run ${say(fit.wanted.x)} and rise ${say(fit.wanted.y)}.`,
      { runs: fit.drawn.x, rises: fit.drawn.y, run: fit.wanted.x, rise: fit.wanted.y, scale: fit.scale },
      fit.turnDeg < 0.05
        ? `Set cheek.crest.scale to ${Number(fit.scale.toFixed(5))}, or to fit.`
        : "Set cheek.crest.scale to fit: it is turned and scaled until its ends meet both rails.",
    ),
  ];
}

function checkCutout(design: Design, field: string): Finding[] {
  const shape = design.drawn[field]!;
  const cut = cutShape(shape, design.cutter / 2);
  const { min, max } = boundsOf(shape.loops);
  const say = (mm: number): string => formatLength(mm, design.units);
  const size = { width: max.x - min.x, height: max.y - min.y };
  return [
    finding(
      "drawing_size",
      "note",
      field,
      `The drawing comes out ${say(size.width)} wide and ${say(size.height)} high, ${shape.loops.length} ${shape.loops.length === 1 ? "contour" : "contours"}.`,
      { ...size, contours: shape.loops.length },
    ),
    ...when(cut.lost > 0 || cut.parted > 0, () =>
      finding(
        "drawing_too_fine",
        "error",
        field,
        `A cutter of ${say(design.cutter)} does not fit through ${cut.lost > 0 ? `${cut.lost} of the contours` : "the narrows of the drawing"}.`,
        { cutter: design.cutter, lost: cut.lost, parted: cut.parted },
        "Take a smaller cutter, or draw it wider.",
      ),
    ),
    ...when(cut.lost === 0 && cut.parted === 0 && cut.rounded > 0.05, () =>
      finding(
        "drawing_rounded",
        "note",
        field,
        `The cutter of ${say(design.cutter)} leaves the drawing's inside corners round, up to ${say(cut.rounded)} short of their points.`,
        { rounded: cut.rounded, radius: design.cutter / 2 },
      ),
    ),
  ];
}
