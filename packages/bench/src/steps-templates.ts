import { boundsOf } from "@dryfit/geometry";
import { guideWords } from "./choose.ts";
import { routeOf, routingMinutes } from "./minutes.ts";
import { listed, type Step, type StepFigure } from "./step.ts";
import { passesTo } from "./table.ts";
import type { Template } from "./template.ts";
import type { HandTools } from "./tools.ts";

/** The step in which a template is used. */
export function templateStep(template: Template, tools: HandTools): Step {
  return template.kind === "inside" ? insideStep(template, tools) : outsideStep(template, tools);
}

function insideStep(template: Template, tools: HandTools): Step {
  const { fit, uses, depth, through } = template;
  const below = tools.template.thickness + depth;
  const passes = passesTo(depth, fit.cutter.depthPerPass);
  return {
    id: template.id,
    title: `${template.title} of ${listed(uses.map(({ part }) => part))} with template ${template.id}`,
    parts: uses.map(({ part }) => part),
    tool: `${fit.cutter.id} with ${guideWords(fit.guide)}`,
    figures: [
      { what: "depth, pass by pass", mm: passes },
      {
        what: `tip below the base at full depth, template of ${round(tools.template.thickness)}`,
        mm: [below],
      },
      { what: "template's edge to the cut", mm: [fit.offset + template.air] },
      ...middles(template),
    ],
    notes: [
      ...uses.map(layWords),
      template.blank
        ? "Screw two battens under the board along the blank's left and bottom lines, and push the part against them. Turned over, they go on the other face."
        : "Draw the centre lines on the part, lay the template's lines on them, hold it with double-sided tape or clamps.",
      "Inside a hole go round with the clock, seen from above; keep the guide on the wall.",
      ...(through
        ? [
            "Drill most of the waste out first: not every cutter bores. Clamp a board of waste below; the last pass goes into it.",
          ]
        : ["A cutter that does not bore is let down while moving along the cut."]),
    ],
    minutes: routingMinutes(uses.length, routeOf(template) * passes.length * uses.length),
    first: `Rout an offcut with this template and measure the cut: ${sizeOf(template)}. A little too narrow is a chip between ${fit.guide.kind} and template; too wide is a worn or loose ${fit.guide.kind}.`,
  };
}

function outsideStep(template: Template, tools: HandTools): Step {
  const { fit, uses, depth } = template;
  const over = fit.guide.kind === "bush" || fit.guide.at === "shank";
  return {
    id: template.id,
    title: `${template.title} of ${listed(uses.map(({ part }) => part))} with template ${template.id}`,
    parts: uses.map(({ part }) => part),
    tool: `${fit.cutter.id} with ${guideWords(fit.guide)}`,
    figures: [
      { what: "tip below the base at full depth", mm: [depth + (over ? tools.template.thickness : 0)] },
      { what: "template's edge to the cut", mm: [fit.offset] },
      { what: "waste left by the saw", mm: [WASTE_MM] },
    ],
    notes: [
      ...uses.map(layWords),
      over
        ? "The template lies on the part, its level and upright edges on the blank's; fix it with screws through the housings' waste or double-sided tape."
        : "The template lies under the part, its level and upright edges on the blank's; fix it with double-sided tape.",
      "Draw round it, saw outside the line, then rout against the clock round the part, seen from above, from the long grain into the corners.",
      ...(fit.guide.kind === "bush"
        ? []
        : ["With a bearing the template is the finished shape: file its edge smooth, every bump is copied."]),
    ],
    // Sawn outside the line at about the pace at which it is routed.
    minutes: routingMinutes(uses.length, 2 * routeOf(template) * uses.length),
    first:
      "Run round a corner of the template on an offcut and lay the template on it: edges flush by touch.",
  };
}

/** What a jigsaw leaves for the router, mm: common practice, no source. */
const WASTE_MM = 2;

function layWords({ part, face, faceWords, mirrored }: Template["uses"][number]): string {
  return `${part}: face ${face} (${faceWords}) up, template ${mirrored ? "TURNED OVER, its written side down" : "written side up"}.`;
}

function middles({ uses }: Template): readonly StepFigure[] {
  return uses.flatMap(({ part, middle }) =>
    middle
      ? [
          {
            what: `${part}: centre lines from the left and bottom edges, seen from face A`,
            mm: middle,
            by: true,
          },
        ]
      : [],
  );
}

function sizeOf({ finished }: Template): string {
  const { min, max } = boundsOf(finished.map(({ outer }) => outer));
  return `${round(max.x - min.x)} by ${round(max.y - min.y)} mm over all`;
}

function round(value: number): number {
  return Number(value.toFixed(2));
}
