import { partDxf } from "@dryfit/dxf";
import {
  boundsOf,
  type Loop,
  type Placement,
  place,
  placement,
  placeRegion,
  point,
  type Region,
  rectangle,
  reversed,
} from "@dryfit/geometry";
import type { Bore, Opening, Part } from "@dryfit/joinery";
import { withKerf } from "./guide.ts";
import type { Template } from "./template.ts";
import type { HandTools } from "./tools.ts";

/** The template as DXF text (R2000, mm) for a laser or a router, its kerf drawn in or left to the service, and told. */
export function templateDxf(template: Template, tools: HandTools, revision: string): string {
  const { kerf, allowance } = tools.laser;
  const drawn = allowance === "drawn" ? kerf : 0;
  const [board] = withKerf([boardOf(template)], drawn);
  return partDxf(asPart(template, board!, tools), {
    runOut: 0,
    note:
      `Units: millimetres. Routing template ${template.id}, revision ${revision}. ` +
      (drawn > 0
        ? `Kerf ${round(kerf)} mm is drawn in: cut on the lines, allow for nothing.`
        : `Sizes are nominal, no kerf drawn in: whoever cuts allows for ${kerf > 0 ? `the kerf, ${round(kerf)} mm here` : "the kerf"}.`),
  });
}

/** The wood of the template: a board with holes, or the outline. */
export function boardOf({ board, contours }: Template): Region<"template"> {
  if (!board) return contours[0]!;
  return { outer: rectangle(board.min, board.max), holes: contours.map(({ outer }) => reversed(outer)) };
}

/** A template is a part like another: an outline, openings, small holes that mark where to drill. */
function asPart(template: Template, board: Region<"template">, { template: { thickness } }: HandTools): Part {
  const { min } = boundsOf(board.outer);
  const move: Placement<"panel", "template"> = placement(point(-min.x, -min.y));
  const moved = placeRegion(move, board);
  const { fit, uses } = template;
  const guide = fit.guide.kind === "bush" ? fit.guide.id : "bearing";
  return {
    id: `${template.id} ${fit.cutter.id} ${guide} ${round(fit.guide.diameter)}`,
    panel: "template",
    title: template.title,
    material: "template",
    thickness: { min: thickness, mean: thickness, max: thickness },
    outline: moved.outer,
    features: [
      ...moved.holes.map(
        (hole, i): Opening => ({
          kind: "opening",
          id: `hole-${i + 1}`,
          loop: reversed(hole) as Loop<"panel">,
          title: "hole",
        }),
      ),
      ...template.drills.map(
        ({ at }, i): Bore => ({
          kind: "bore",
          id: `drill-${i + 1}`,
          face: "A",
          at: place(move, point<"template">(at[0], at[1])),
          diameter: PRICK_MM,
          depth: null,
        }),
      ),
    ],
    roundOvers: [],
    grain: "free",
    faceNames: { A: `for ${uses[0]!.part} face ${uses[0]!.face}`, B: "underside" },
    mating: [],
  };
}

/** Holes through which a place to drill is pricked, mm. */
const PRICK_MM = 2;

function round(value: number): number {
  return Number(value.toFixed(2));
}
