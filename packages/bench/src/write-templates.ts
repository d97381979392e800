import {
  type BuildSheetData,
  buildSheetFiles,
  couponSheet,
  type Paper,
  paperHtml,
  pdfText,
  thicknessWords,
  tiled,
} from "@dryfit/drawing";
import { judgeDxf } from "@dryfit/dxf";
import { boundsOf } from "@dryfit/geometry";
import {
  type Assembly,
  costOf,
  couponTrials,
  type Design,
  type Finding,
  finishOf,
  hardware,
  type Prices,
} from "@dryfit/joinery";
import type { SawPlan } from "@dryfit/nest";
import { type Proof, printedJoint, printedWeight } from "@dryfit/verify";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { TemplatesInput, TemplatesMade } from "./make-templates.ts";
import { HAND_RISKS, handTime } from "./minutes.ts";
import type { BenchPlan } from "./plan.ts";
import { routingSections } from "./routing-sections.ts";
import { sawFiles } from "./saw-files.ts";
import { ROUTER_CAUTIONS, settingsPages } from "./settings-paper.ts";
import type { Template } from "./template.ts";
import { templateDrawing } from "./template-drawing.ts";
import { templateDxf } from "./template-dxf.ts";
import type { BenchFinding, TemplatesJob, TextFile } from "./templates-job.ts";
import type { HandTools } from "./tools.ts";

/** All that was worked out and proved, before it is written. */
export interface TemplatesWork {
  readonly input: TemplatesInput;
  readonly design: Design;
  readonly assembly: Assembly;
  readonly tools: HandTools;
  readonly prices: Prices | null;
  readonly plan: BenchPlan;
  readonly saw: SawPlan;
  readonly proof: Omit<Proof, "programs">;
  readonly findings: readonly BenchFinding[];
}

/** The folder's files and what its job.json says; the templates' drawings are read back and judged first. */
export function writtenTemplates(work: TemplatesWork): TemplatesMade {
  const { input, design, tools, plan, saw, proof, findings } = work;
  const isCoupon = input.work === "coupon";
  const revision = revisionOf(input);
  const options = { paper: input.paper, measured: input.measured };
  const drawn = plan.templates.map((template) => {
    const tiling = tiled(templateDrawing(template, design.name, revision), options);
    const pdf = {
      file: `templates/${template.id}-${input.paper}.pdf`,
      text: pdfText(template.id, tiling.pages),
    };
    const dxf = { file: `templates/${template.id}.dxf`, text: templateDxf(template, tools, revision) };
    return { template, tiling, pdf, dxf };
  });
  const judged = drawn.flatMap(({ dxf }) => judgeDxf(dxf.text, { file: dxf.file })).map(nowhere);
  if (judged.some(isError))
    return { outcome: "disproved", files: [], job: null, findings: [...findings, ...judged] };
  const spent = spentOn(work);
  const settings = settingsPages({
    name: design.name,
    revision,
    units: design.units,
    paper: input.paper,
    steps: plan.steps,
    findings: plan.findings,
  });
  const files: readonly TextFile[] = [
    { file: "design.yaml", text: input.design.text },
    { file: "tools.yaml", text: input.tools.text },
    ...(input.drawings ?? []),
    { file: "settings.pdf", text: pdfText(`${design.name}: settings`, settings) },
    ...(input.prices ? [{ file: "prices.yaml", text: input.prices.text }] : []),
    ...(isCoupon
      ? [{ file: "coupon.html", text: paperHtml(couponPaper(design, revision)) }]
      : [
          ...sawFiles(design, saw, tools.saw, revision),
          ...buildSheetFiles(buildSheetOf(work, revision, spent), input.paper),
        ]),
    ...drawn.flatMap(({ pdf, dxf }) => [pdf, dxf]),
  ];
  const job: TemplatesJob = {
    name: design.name,
    units: "mm",
    kind: "templates",
    work: input.work ?? "case",
    tool: { name: "dryfit", version: input.version },
    design: { file: "design.yaml", sha256: hashOf(input.design.text) },
    tools: { file: "tools.yaml", sha256: hashOf(input.tools.text) },
    revision,
    paper: input.paper,
    measured: input.measured,
    kerf: tools.laser,
    templates: drawn.map(({ template, tiling, pdf, dxf }) => ({
      id: template.id,
      kind: template.kind,
      uses: template.uses,
      cutter: { id: template.fit.cutter.id, diameter: template.fit.cutter.diameter },
      guide: template.fit.guide,
      offset: round(template.fit.offset + template.air),
      depth: round(template.depth),
      finished: sizeOf(template.finished),
      size: sizeOf(template.contours),
      diagonal: round(tiling.diagonal),
      deviation: round(template.deviation),
      pdf: pdf.file,
      dxf: dxf.file,
      tiles: tiling.tiles,
    })),
    steps: plan.steps,
    sawSteps: saw.steps,
    joints: proof.joints.map(printedJoint),
    ...spent,
    weightKg: printedWeight(proof),
    findings: [...findings, ...judged],
    files: files.map(({ file, text }) => ({ file, sha256: hashOf(text) })),
  };
  const manifest = { file: "job.json", text: `${JSON.stringify(job, null, 2)}\n` };
  return { outcome: "made", files: [manifest, ...files], job, findings: job.findings };
}

function couponPaper(design: Design, revision: string): Paper {
  const { name, joint, sheet } = design;
  return couponSheet({
    name,
    revision,
    tongue: joint.tongue,
    thickness: sheet.thickness.mean,
    by: "template",
    plates: [],
    ...couponTrials(design),
    kerfs: [],
  });
}

function buildSheetOf(
  { design, assembly, plan, proof, findings }: TemplatesWork,
  revision: string,
  spent: Pick<BuildSheetData, "cost" | "finish">,
): BuildSheetData {
  const widest = Math.max(0, ...plan.templates.map(({ deviation }) => deviation));
  return {
    assembly,
    revision,
    verdict: {
      pass: true,
      sentence: `Proved: every template's route within ${Math.max(0.001, widest).toFixed(3)} mm of the design, nothing touches.`,
    },
    material: design.sheet.name,
    thickness: thicknessWords(design.sheet.thickness),
    hardware: hardware(design),
    sheets: [],
    programs: [],
    making: {
      by: "hand router and templates",
      sections: routingSections(plan.templates, plan.steps, design.units),
      cautions: ROUTER_CAUTIONS,
      time: handTime(plan.templates, plan.steps),
      risks: HAND_RISKS,
    },
    joints: proof.joints,
    order: proof.order,
    measures: proof.measures,
    findings,
    ...spent,
  };
}

/** A saw's sheets are the case's own; how long a hand takes, nobody knows. */
function spentOn({ design, assembly, saw, prices }: TemplatesWork): Pick<BuildSheetData, "cost" | "finish"> {
  const sheets = saw.sheets.map(({ stock }) => ({ ...stock, kind: stock.id, share: 1 }));
  const finish = finishOf(assembly, prices);
  return { finish, cost: costOf(design, { sheets, minutes: 0 }, finish, prices) };
}

function nowhere(f: Finding): BenchFinding {
  return { ...f, at: null };
}

function isError({ severity }: Finding): boolean {
  return severity === "error";
}

/** Eight digits that change whenever anything does that the papers depend on. */
function revisionOf({
  design,
  tools,
  drawings = [],
  prices,
  paper,
  measured,
  version,
  work = "case",
}: TemplatesInput): string {
  const drawn = [...drawings, ...(prices ? [prices] : [])].map(({ text }) => text);
  const all = [version, design.text, tools.text, paper, measured.x, measured.y, work, ...drawn];
  return hashOf(all.join("\0")).slice(0, 8);
}

function hashOf(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

function sizeOf(regions: Template["finished"]): readonly [number, number] {
  const { min, max } = boundsOf(regions.map(({ outer }) => outer));
  return [round(max.x - min.x), round(max.y - min.y)];
}

function round(value: number): number {
  return Number(value.toFixed(3)) + 0;
}
