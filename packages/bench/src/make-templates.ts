import { type PaperName, pdfText, type Tile, tiled } from "@dryfit/drawing";
import { judgeDxf, withDrawingFiles } from "@dryfit/dxf";
import { boundsOf } from "@dryfit/geometry";
import { type Design, type Finding, type Place, readDesign, recipe } from "@dryfit/joinery";
import type { Budget, SawPlan } from "@dryfit/nest";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { byHand } from "./by-hand.ts";
import { finding } from "./findings.ts";
import { type BenchPlan, planBench } from "./plan.ts";
import { readHandTools } from "./read-tools.ts";
import { sawFiles } from "./saw-files.ts";
import { planSaw } from "./saw-plan.ts";
import { settingsPages } from "./settings-paper.ts";
import type { Template } from "./template.ts";
import { templateDrawing } from "./template-drawing.ts";
import { templateDxf } from "./template-dxf.ts";
import type { HandTools } from "./tools.ts";

/** A file by name and text; the name is relative to the folder. */
export interface TextFile {
  readonly file: string;
  readonly text: string;
}

export interface TemplatesInput {
  readonly design: TextFile;
  readonly tools: TextFile;
  /** The drawings that the design names, by the names it gives them; absent: none is at hand. */
  readonly drawings?: readonly TextFile[];
  /** What the search for the saw plan may spend; absent: a moment. */
  readonly sawBudget?: Budget;
  readonly paper: PaperName;
  /** What the 100 mm checks of a test print measured, across and up; 100 where the printer is true. */
  readonly measured: { readonly x: number; readonly y: number };
  /** Of the tool, for job.json. */
  readonly version: string;
}

export interface BenchFinding extends Finding {
  readonly at: Place | null;
}

/** What making a folder comes to. */
export interface BenchMade<Job> {
  readonly outcome: "made" | "cannot" | "unreadable" | "disproved";
  /** The whole folder where `outcome` is "made", else nothing. */
  readonly files: readonly TextFile[];
  /** What job.json holds; null unless made. */
  readonly job: Job | null;
  readonly findings: readonly BenchFinding[];
}

export type TemplatesMade = BenchMade<TemplatesJob>;

/** job.json of a folder of templates. Lengths in mm. */
export interface TemplatesJob {
  readonly name: string;
  readonly units: "mm";
  readonly kind: "templates";
  readonly tool: { readonly name: "dryfit"; readonly version: string };
  readonly design: { readonly file: string; readonly sha256: string };
  readonly tools: { readonly file: string; readonly sha256: string };
  readonly revision: string;
  readonly paper: PaperName;
  readonly measured: { readonly x: number; readonly y: number };
  readonly kerf: HandTools["laser"];
  readonly templates: readonly TemplateEntry[];
  readonly steps: BenchPlan["steps"];
  /** Of the search for the saw plan: as many give the same again. */
  readonly sawSteps: number;
  readonly findings: readonly BenchFinding[];
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
}

interface TemplateEntry {
  readonly id: string;
  readonly kind: Template["kind"];
  readonly uses: Template["uses"];
  readonly cutter: { readonly id: string; readonly diameter: number };
  readonly guide: Template["fit"]["guide"];
  readonly offset: number;
  readonly depth: number;
  readonly finished: readonly [number, number];
  readonly size: readonly [number, number];
  readonly diagonal: number;
  readonly deviation: number;
  readonly pdf: string;
  readonly dxf: string;
  /** In page order: `page = shift + scale · template`. */
  readonly tiles: readonly Tile[];
}

/** From the texts of a design and a tools file to a folder of templates and settings; pure, the same bytes each time. */
export function makeTemplates(input: TemplatesInput): TemplatesMade {
  const design = readDesign(input.design.text, input.design.file);
  const tools = readHandTools(input.tools.text, input.tools.file);
  if (!design.ok || !tools.ok) {
    const problems = [design, tools].flatMap((read) => (read.ok ? [] : read.problems));
    const findings = problems.map(({ path, found, allowed, file, line, column }) => ({
      code: "unreadable",
      severity: "error" as const,
      path,
      message: `Found ${found}.`,
      wayOut: `Allowed: ${allowed}.`,
      numbers: {},
      at: { file, line, column },
    }));
    return { outcome: "unreadable", files: [], job: null, findings };
  }
  const scale = offScale(input.measured);
  const drawn = withDrawingFiles(design.value, input.drawings ?? []);
  const hand = byHand(drawn.design);
  const assembly = recipe(hand.design);
  const inDesign = [...assembly.findings, ...hand.findings].map(
    (f): BenchFinding => ({ ...f, at: design.place(f.path) }),
  );
  if ([...scale, ...inDesign].some(isError))
    return { outcome: "cannot", files: [], job: null, findings: [...scale, ...inDesign] };
  const plan = planBench(assembly, tools.value);
  const saw = planSaw(hand.design, assembly, tools.value.saw, input.sawBudget);
  const findings = [...inDesign, ...plan.findings.map(nowhere), ...saw.findings.map(asWarning)];
  if (plan.findings.some(isError))
    return { outcome: plan.findings.some(isOurs) ? "disproved" : "cannot", files: [], job: null, findings };
  return written({ ...input, drawings: drawn.used }, hand.design, tools.value, plan, saw, findings);
}

function written(
  input: TemplatesInput,
  design: Design,
  tools: HandTools,
  plan: BenchPlan,
  saw: SawPlan,
  findings: readonly BenchFinding[],
): TemplatesMade {
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
    ...sawFiles(design, saw, tools.saw, revision),
    ...drawn.flatMap(({ pdf, dxf }) => [pdf, dxf]),
  ];
  const job: TemplatesJob = {
    name: design.name,
    units: "mm",
    kind: "templates",
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
    findings: [...findings, ...judged],
    files: files.map(({ file, text }) => ({ file, sha256: hashOf(text) })),
  };
  const manifest = { file: "job.json", text: `${JSON.stringify(job, null, 2)}\n` };
  return { outcome: "made", files: [manifest, ...files], job, findings: job.findings };
}

/** A print farther off is one that was fitted to the page, not a printer's own error. mm in 100. */
const MOST_OFF_MM = 3;

function offScale(measured: TemplatesInput["measured"]): readonly BenchFinding[] {
  return (["x", "y"] as const).flatMap((axis) => {
    const found = measured[axis];
    if (Math.abs(found - 100) <= MOST_OFF_MM) return [];
    return [
      nowhere(
        finding(
          "print_off_scale",
          "error",
          `measured-${axis}`,
          `A check of 100 mm that measures ${found} mm was fitted to the page; a printer's own error is at most ${MOST_OFF_MM} mm.`,
          { measured: found, least: 100 - MOST_OFF_MM, most: 100 + MOST_OFF_MM },
          "Print again at actual size (100 %), measure, and give that.",
        ),
      ),
    ];
  });
}

/** Templates serve whatever the blanks are sawn from. */
function asWarning(f: Finding): BenchFinding {
  return { ...f, severity: f.severity === "error" ? "warning" : f.severity, at: null };
}

function nowhere(f: Finding): BenchFinding {
  return { ...f, at: null };
}

function isError({ severity }: Finding): boolean {
  return severity === "error";
}

function isOurs({ code }: Finding): boolean {
  return code === "template_off";
}

/** Eight digits that change whenever anything does that the papers depend on. */
function revisionOf({ design, tools, drawings = [], paper, measured, version }: TemplatesInput): string {
  const drawn = drawings.map(({ text }) => text);
  const all = [version, design.text, tools.text, paper, measured.x, measured.y, ...drawn];
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
