import { paperHtml, sawPlan, sawSheetSvg } from "@dryfit/drawing";
import type { Design } from "@dryfit/joinery";
import type { SawPlan, SawRules } from "@dryfit/nest";
import { sawPaper } from "./saw-paper.ts";
import type { TextFile } from "./templates-job.ts";

/** The papers of a saw plan: all of it for the bench, and each sheet alone. */
export function sawFiles(
  design: Design,
  plan: SawPlan,
  rules: SawRules,
  revision: string,
): readonly TextFile[] {
  const paper = sawPaper(design, plan, rules, { revision, findings: plan.findings });
  return [
    { file: "saw-plan.html", text: paperHtml(sawPlan(paper)) },
    ...paper.sheets.map((sheet) => ({ file: `saw/${sheet.id}.svg`, text: sawSheetSvg(paper, sheet) })),
  ];
}
