import { paragraph, type Section, section, table, title } from "@dryfit/drawing";
import { formatLength, type Units } from "@dryfit/joinery";
import type { Step, StepFigure } from "./step.ts";
import type { Template } from "./template.ts";

/** What the build sheet tells of a hand router: templates with their guides, then every step with what is set for it. */
export function routingSections(
  templates: readonly Template[],
  routing: readonly Step[],
  units: Units,
): readonly Section[] {
  const words = (mm: readonly number[], between: string): string =>
    mm.map((one) => formatLength(one, units)).join(between);
  const figure = ({ what, mm, by }: StepFigure): readonly string[] => [what, words(mm, by ? " × " : ", ")];
  return [
    section(
      "templates",
      "Templates",
      paragraph(
        "Print at actual size (100 %) and measure the 100 mm checks, or have them cut from the DXF files. An offset is from the template's edge to the cut.",
      ),
      table(
        [
          { title: "template" },
          { title: "for" },
          { title: "cutter" },
          { title: "guide" },
          { title: "offset", figures: true },
          { title: "deepest", figures: true },
        ],
        templates.map(({ id, uses, fit, air, depth }) => [
          id,
          uses.map(({ part, face }) => `${part} face ${face}`).join(", "),
          `${fit.cutter.id}, ${formatLength(fit.cutter.diameter, units)}`,
          fit.guide.kind === "bush" ? fit.guide.id : `bearing ${formatLength(fit.guide.diameter, units)}`,
          formatLength(fit.offset + air, units),
          formatLength(depth, units),
        ]),
      ),
    ),
    section(
      "settings",
      "Routing, in this order",
      paragraph(
        "settings.pdf has the same with what to watch at each step. Try every setting on an offcut first.",
      ),
      ...routing.flatMap((step, i) => [
        title(`${i + 1}  ${step.title}${step.tool ? `: ${step.tool}` : ""}`),
        table([{ title: "set" }, { title: "to", figures: true }], step.figures.map(figure)),
        paragraph(
          `${step.first === null ? "" : `Test first: ${step.first} `}About ${step.minutes} min${step.instead ? " in place of the template's" : ""}.`,
        ),
      ]),
    ),
  ].filter((one) => one !== null);
}
