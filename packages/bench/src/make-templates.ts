import type { PaperName } from "@dryfit/drawing";
import { withDrawingFiles } from "@dryfit/dxf";
import { type Finding, readDesign, readPrices, recipe } from "@dryfit/joinery";
import type { Budget } from "@dryfit/nest";
import type { SolidKernel } from "@dryfit/verify";
import { byHand } from "./by-hand.ts";
import { couponByHand, NO_TONGUES } from "./coupon-by-hand.ts";
import { finding } from "./findings.ts";
import { planBench } from "./plan.ts";
import { readHandTools } from "./read-tools.ts";
import { planSaw } from "./saw-plan.ts";
import { standUp } from "./stand-up.ts";
import type { BenchFinding, BenchMade, TemplatesJob, TextFile } from "./templates-job.ts";
import { writtenTemplates } from "./write-templates.ts";

export interface TemplatesInput {
  readonly design: TextFile;
  readonly tools: TextFile;
  /** The drawings that the design names, by the names it gives them; absent: none is at hand. */
  readonly drawings?: readonly TextFile[];
  /** What things cost; absent or null: only what the design's sheets say. */
  readonly prices?: TextFile | null;
  /** What the search for the saw plan may spend; absent: a moment. */
  readonly sawBudget?: Budget;
  /** What is routed: the case, or the coupon that tries its joint beforehand; absent: the case. */
  readonly work?: "case" | "coupon";
  readonly paper: PaperName;
  /** What the 100 mm checks of a test print measured, across and up; 100 where the printer is true. */
  readonly measured: { readonly x: number; readonly y: number };
  /** Of the tool, for job.json. */
  readonly version: string;
}

export type TemplatesMade = BenchMade<TemplatesJob>;

/**
 * From the texts of a design and a tools file to a folder of templates, settings and the build sheet of the parts
 * that they rout, stood up; pure, the same bytes each time. `kernel` spares its loading.
 */
export async function makeTemplates(input: TemplatesInput, kernel?: SolidKernel): Promise<TemplatesMade> {
  const design = readDesign(input.design.text, input.design.file);
  const tools = readHandTools(input.tools.text, input.tools.file);
  const prices = input.prices ? readPrices(input.prices.text, input.prices.file) : null;
  if (!design.ok || !tools.ok || prices?.ok === false) {
    const problems = [design, tools, ...(prices ? [prices] : [])].flatMap((read) =>
      read.ok ? [] : read.problems,
    );
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
  const { work = "case" } = input;
  const whole = recipe(hand.design);
  const assembly = work === "case" ? whole : couponByHand(hand.design, tools.value, whole);
  const placed = (f: Finding): BenchFinding => ({ ...f, at: design.place(f.path) });
  const inDesign = [...assembly.findings, ...hand.findings]
    // How often a machine's sheet is turned over is nothing to a hand.
    .filter(({ code }) => code !== "rail_style")
    .map(placed);
  if (work === "coupon" && hand.design.layers) inDesign.push(placed(NO_TONGUES));
  if ([...scale, ...inDesign].some(isError))
    return { outcome: "cannot", files: [], job: null, findings: [...scale, ...inDesign] };
  const plan = planBench(assembly, tools.value);
  const saw = planSaw(hand.design, assembly, tools.value.saw, input.sawBudget);
  const planned = [...inDesign, ...plan.findings.map(nowhere), ...saw.findings.map(asWarning)];
  if (plan.findings.some(isError))
    return {
      outcome: plan.findings.some(isOurs) ? "disproved" : "cannot",
      files: [],
      job: null,
      findings: planned,
    };
  const { name, density } = hand.design.sheet;
  const proof = await standUp(assembly, density === null ? {} : { [name]: density }, kernel);
  const findings = [...planned, ...proof.findings.map(placed)];
  if (!proof.pass) return { outcome: "disproved", files: [], job: null, findings };
  return writtenTemplates({
    input: { ...input, drawings: drawn.used },
    design: hand.design,
    assembly,
    tools: tools.value,
    prices: prices?.value ?? null,
    plan,
    saw,
    proof,
    findings,
  });
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
