import { CUT_MM } from "@dryfit/geometry";
import type { Assembly, Finding, Part } from "@dryfit/joinery";
import { finding } from "./findings.ts";
import { insideTemplates } from "./inside.ts";
import { edgeMinutes } from "./minutes.ts";
import { outsideTemplates } from "./outside.ts";
import { slotsOf } from "./slots.ts";
import type { Step } from "./step.ts";
import { rebateSteps } from "./steps-rebates.ts";
import { drill, sawBlanks, sawCorners } from "./steps-saw.ts";
import { grooveSteps, housingFenceSteps } from "./steps-slots.ts";
import { templateStep } from "./steps-templates.ts";
import { merged, type Template } from "./template.ts";
import type { HandTools } from "./tools.ts";

/** All that a hand router needs to know of a case. */
export interface BenchPlan {
  readonly templates: readonly Template[];
  /** In the order of work. */
  readonly steps: readonly Step[];
  readonly findings: readonly Finding[];
}

/**
 * A case made with a hand router: templates, settings and their order.
 *
 * Housings come first, so that tongues can be tried in them; a cheek stays a rectangle as long as fences and
 * templates are laid on its edges. Where tools do not serve, findings say so, all of them.
 */
export function planBench(assembly: Assembly, tools: HandTools): BenchPlan {
  const inside = insideTemplates(assembly, tools);
  const outside = outsideTemplates(assembly, tools);
  const slots = slotsOf(assembly);
  const grooves = grooveSteps(slots, tools);
  const fences = housingFenceSteps(slots, tools);
  const rebates = rebateSteps(assembly, tools);
  const insides = merged(inside.templates);
  const outsides = merged(outside.templates);
  const templates = [...insides, ...outsides];
  const shallow = insides.filter(({ through }) => !through);
  const through = insides.filter((template) => template.through);
  return {
    templates,
    steps: [
      sawBlanks(assembly),
      ...shallow.map((template) => templateStep(template, tools)),
      ...fences.steps,
      ...grooves.steps,
      ...rebates.steps,
      ...sawCorners(assembly),
      ...through.map((template) => templateStep(template, tools)),
      ...drill(assembly),
      ...outsides.map((template) => templateStep(template, tools)),
      ...roundOvers(assembly.parts),
    ],
    findings: [
      ...inside.findings,
      ...outside.findings,
      ...grooves.findings,
      // The straightedge is another way to the housings: where the template has no cutter, it has none either.
      ...fences.findings.filter(({ severity }) => severity !== "error"),
      ...rebates.findings,
      ...templates.flatMap(astray),
    ],
  };
}

/** Twice the widest error of a machine's cut: a template's route is worked out from offsets of offsets. */
const ROUTE_MM = 2 * CUT_MM;

/** A template whose route does not give the design is a fault of ours. */
function astray({ id, deviation }: Template): readonly Finding[] {
  if (deviation <= ROUTE_MM) return [];
  return [
    finding(
      "template_off",
      "error",
      id,
      `The template ${id}, run round with its guide, differs from the design by ${deviation.toFixed(3)} mm.`,
      { deviation, most: ROUTE_MM },
    ),
  ];
}

function roundOvers(parts: readonly Part[]): readonly Step[] {
  const edged = parts.filter((part) => part.roundOvers.length > 0);
  if (edged.length === 0) return [];
  return [
    {
      id: "round-over",
      title: "Round over, after the dry fit",
      parts: edged.map(({ id }) => id),
      tool: "round-over cutter with a bearing",
      figures: edged.flatMap((part) =>
        part.roundOvers.map(({ id, radius, faces, form }) => ({
          what: `${part.id}, ${id.replace(/^(round|chamfer)-/, "")}, face ${faces.join(" and ")}: ${form === "chamfer" ? "chamfer" : "radius"}`,
          mm: [radius],
        })),
      ),
      notes: ["Stop where an edge closes a joint: the bearing would drop into a housing's open end."],
      minutes: edgeMinutes(edged.reduce((sum, { roundOvers }) => sum + roundOvers.length, 0)),
      first: null,
    },
  ];
}
