import {
  boundsOf,
  contains,
  distanceTo,
  flatten,
  type Loop,
  offset,
  type Path,
  reversed,
} from "@dryfit/geometry";
import type { Design } from "./design.ts";
import { drawingPlaces } from "./drawing.ts";
import { crestFit, drawnCrest } from "./drawn-crest.ts";
import { cutShape } from "./drawn-opening.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { formatLength } from "./length.ts";

/** Less wood between two cuts breaks when it is handled, mm; common practice, no source. */
const THINNEST_WEB_MM = 1.5;

/** Round corners that nobody sees are not told, mm. */
const ROUNDED_MM = 0.05;

/** How finely a rim is looked at, mm. */
const RIM_MM = 0.05;

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
  if (fit === null || fit.off <= fit.most) return checkValleys(design);
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

/** How much of the crest's valleys the cutter leaves standing: round corners, or a whole cleft. */
function checkValleys(design: Design): Finding[] {
  const crest = drawnCrest(design);
  if (crest === null) return [];
  const r = design.cutter / 2;
  const left = leftInValleys(crest, r);
  const say = (mm: number): string => formatLength(mm, design.units);
  return [
    ...when(left > 2 * r, () =>
      finding(
        "drawing_too_fine",
        "error",
        "cheek.crest.file",
        `A cutter of ${say(design.cutter)} does not fit into a valley of the drawn crest: ${say(left)} of its depth would stay.`,
        { cutter: design.cutter, left },
        "Take a smaller cutter, or draw it wider.",
      ),
    ),
    ...when(left <= 2 * r && left > ROUNDED_MM, () =>
      finding(
        "drawing_rounded",
        "note",
        "cheek.crest.file",
        `The cutter of ${say(design.cutter)} leaves the drawn crest's inside corners round, up to ${say(left)} short of their points.`,
        { rounded: left, radius: r },
      ),
    ),
  ];
}

/** The farthest that a corner of the crest lies under what the cutter leaves. */
function leftInValleys(crest: Path<"panel">, r: number): number {
  const { min, max } = boundsOf(crest);
  const floor = min.y - 4 * r - 1;
  const under = (x: number) => ({ x, y: floor, bulge: 0 });
  const outer: Loop<"panel"> = {
    closed: true,
    vertices: [under(min.x), under(max.x), ...reversed(crest).vertices],
  };
  const [reached] = offset(offset([{ outer, holes: [] }], r), -r);
  if (reached === undefined) return 0;
  const inside = crest.vertices.filter((p) => contains(reached.outer, p) === "inside");
  return Math.max(0, ...inside.map((p) => distanceTo(reached.outer, p)));
}

function checkCutout(design: Design, field: string): Finding[] {
  const shape = design.drawn[field]!;
  const cut = cutShape(shape, design.cutter / 2);
  const web = thinnestWeb(cut.loops);
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
    ...when(web < THINNEST_WEB_MM, () =>
      finding(
        "drawing_web_thin",
        "warning",
        field,
        `${say(web)} of wood is left between two contours of the drawing; ${say(THINNEST_WEB_MM)} is good practice.`,
        { web, least: THINNEST_WEB_MM },
        "Draw them farther apart, or larger with scale.",
      ),
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
    ...when(cut.lost === 0 && cut.parted === 0 && cut.rounded > ROUNDED_MM, () =>
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

function thinnestWeb(loops: readonly Loop[]): number {
  const webs = loops.flatMap((a, i) =>
    loops.slice(i + 1).map((b) => Math.min(...flatten(a, RIM_MM).map((p) => distanceTo(b, p)))),
  );
  return Math.min(Number.POSITIVE_INFINITY, ...webs);
}
