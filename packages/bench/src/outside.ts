import { boundsOf, type Loop, placement, placeRegion, point, segments } from "@dryfit/geometry";
import type { Assembly, Finding, Part } from "@dryfit/joinery";
import { type Fit, guideWords, obstaclesTo, pairsOf } from "./choose.ts";
import { beyond, sharpCorners, tightestOutside } from "./corners.ts";
import { finding } from "./findings.ts";
import { outsideTemplate, routedOutside } from "./guide.ts";
import { INTO_BOARD_MM } from "./inside.ts";
import type { Template } from "./template.ts";
import type { HandTools } from "./tools.ts";

/** Templates round which the router runs, for parts that a saw alone does not shape. */
export function outsideTemplates(
  assembly: Assembly,
  tools: HandTools,
): { readonly templates: readonly Template[]; readonly findings: readonly Finding[] } {
  const made = assembly.parts
    .filter((part) => !isSawn(part.outline))
    .map((part) => outlineTemplate(part, tools));
  return {
    templates: made.flatMap(({ template }) => (template ? [template] : [])),
    findings: made.flatMap(({ findings }) => findings),
  };
}

/**
 * Whether straight saw cuts give the outline: its sides are level or upright, and what is round is only the corner
 * that a cutter would have left, which a saw leaves square.
 */
export function isSawn(outline: Loop): boolean {
  return segments(outline).every((s) =>
    s.kind === "line"
      ? Math.abs(s.from.x - s.to.x) < LEVEL_MM || Math.abs(s.from.y - s.to.y) < LEVEL_MM
      : s.sweep < 0 && s.radius <= CUTTER_CORNER_MM,
  );
}

/** A side that rises by less is level to a saw, mm. */
const LEVEL_MM = 0.01;

/** No inside corner wider than this is there only because of the cutter, mm. */
const CUTTER_CORNER_MM = 6.5;

function outlineTemplate(
  part: Part,
  tools: HandTools,
): { readonly template: Template | null; readonly findings: readonly Finding[] } {
  const fit = chooseOutside(part, tools);
  if (!("cutter" in fit)) return { template: null, findings: fit };
  const toTemplate = placement<"template", "panel">(point(0, 0));
  const outline = [placeRegion(toTemplate, { outer: part.outline, holes: [] })];
  const pair = { guide: fit.guide.diameter, cutter: fit.cutter.diameter };
  const contours = outsideTemplate(outline, pair);
  const left = routedOutside(contours, pair);
  const stays = beyond(left, outline);
  const rounds = fit.offset > 0 && sharpCorners(part.outline) > 0;
  const size = boundsOf(part.outline).max;
  const tight = fit.cutter.diameter / 2 > tightestOutside(part.outline);
  // What a cutter leaves in a corner too tight for it, and a bush takes of a sharp one, is told beside it.
  const deviation = Math.max(tight ? 0 : stays, rounds ? 0 : beyond(outline, left));
  return {
    template: {
      id: `${part.id}-outline`,
      title: "Outline",
      kind: "outside",
      uses: [
        {
          part: part.id,
          title: part.title,
          face: "A",
          faceWords: part.faceNames.A,
          mirrored: false,
          middle: null,
        },
      ],
      fit,
      air: 0,
      finished: outline,
      contours,
      board: null,
      blank: { min: point(0, 0), max: point(size.x, size.y) },
      drills: [],
      letters: [],
      depth: part.thickness.max + INTO_BOARD_MM,
      through: true,
      deviation,
    },
    findings: [
      ...(stays > SEEN_MM
        ? [
            finding(
              "corner_left",
              "warning",
              `${part.id}.outline`,
              `The cutter ${fit.cutter.id} leaves up to ${stays.toFixed(1)} mm of wood in an inside corner of ${part.id}, whose radius is ${tightestOutside(part.outline).toFixed(1)} mm.`,
              { left: stays, cutter: fit.cutter.diameter },
              "Rasp the corner to the line, or take a narrower cutter.",
            ),
          ]
        : []),
      ...(rounds
        ? [
            finding(
              "corner_rounded",
              "warning",
              `${part.id}.outline`,
              `Round ${guideWords(fit.guide)} the sharp corners of ${part.id} come out with a radius of ${fit.offset.toFixed(1)} mm.`,
              { radius: fit.offset },
              "Take a cutter with a bearing of its own diameter for outlines.",
            ),
          ]
        : []),
    ],
  };
}

/** Less wood in a corner is sanded off unseen, mm. */
const SEEN_MM = 0.1;

/** A bearing of the cutter's own size leaves corners sharp; of those the widest cutter that goes into the corners. */
function chooseOutside(part: Part, tools: HandTools): Fit | readonly Finding[] {
  const corner = tightestOutside(part.outline);
  const depth = part.thickness.max + INTO_BOARD_MM;
  const wanted = {
    path: `${part.id}.outline`,
    what: `The outline of ${part.id}`,
    depth,
    narrowest: Number.POSITIVE_INFINITY,
    corner: Number.POSITIVE_INFINITY,
  };
  const tried = pairsOf(tools, ["shank", "tip"]).map((fit) => ({
    fit,
    obstacles: obstaclesTo(wanted, fit, tools),
  }));
  const able = tried.filter(({ obstacles }) => obstacles.length === 0).map(({ fit }) => fit);
  const fits = ({ cutter }: Fit): number => (cutter.diameter / 2 <= corner ? 0 : 1);
  const best = able.sort(
    (a, b) =>
      Math.abs(a.offset) - Math.abs(b.offset) ||
      fits(a) - fits(b) ||
      (fits(a) === 0 ? b.cutter.diameter - a.cutter.diameter : a.cutter.diameter - b.cutter.diameter),
  )[0];
  if (best) return best;
  const told = tried.flatMap(({ obstacles }) => obstacles.slice(0, 1));
  const first = told[0];
  return [
    finding(
      first?.code ?? "no_guide",
      "error",
      wanted.path,
      first
        ? `${wanted.what} cannot be cut. ${told
            .slice(0, 4)
            .map(({ sentence }) => sentence)
            .join(" ")}`
        : `${wanted.what} needs a cutter with a bearing, or a guide bush; there is none.`,
      first?.numbers ?? {},
      first?.wayOut ?? "Add a cutter with a bearing of its own diameter.",
    ),
  ];
}
