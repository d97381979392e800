import { readDesign, recipe } from "@dryfit/joinery";
import type { SawPlan, SawRules } from "@dryfit/nest";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { BenchFinding, TextFile } from "./make-templates.ts";
import { sawFiles } from "./saw-files.ts";
import { planSaw } from "./saw-plan.ts";

export interface SawInput {
  readonly design: TextFile;
  readonly rules: SawRules;
  /** Of the tool, for job.json. */
  readonly version: string;
}

export interface SawMade {
  readonly outcome: "made" | "cannot" | "unreadable";
  /** The whole folder where `outcome` is "made", else nothing. */
  readonly files: readonly TextFile[];
  /** What job.json holds; null unless made. */
  readonly job: SawPlanJob | null;
  readonly findings: readonly BenchFinding[];
}

/** job.json of a folder with a saw plan. Lengths in mm. */
export interface SawPlanJob {
  readonly name: string;
  readonly units: "mm";
  readonly kind: "saw-plan";
  readonly tool: { readonly name: "dryfit"; readonly version: string };
  readonly design: { readonly file: string; readonly sha256: string };
  readonly revision: string;
  readonly rules: SawRules;
  readonly sheets: readonly SawSheetEntry[];
  readonly findings: readonly BenchFinding[];
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
}

interface SawSheetEntry extends Pick<SawPlan["sheets"][number], "id" | "blanks" | "cuts" | "rests"> {
  readonly size: readonly [number, number];
  readonly grain: "x" | "y";
  readonly yield: number;
}

/** From the text of a design to a folder with its saw plan; pure, the same bytes each time. */
export function makeSawPlan({ design: source, rules, version }: SawInput): SawMade {
  const design = readDesign(source.text, source.file);
  const nothing = { files: [], job: null };
  if (!design.ok) {
    const findings = design.problems.map(({ path, found, allowed, file, line, column }) => ({
      code: "unreadable",
      severity: "error" as const,
      path,
      message: `Found ${found}.`,
      wayOut: `Allowed: ${allowed}.`,
      numbers: {},
      at: { file, line, column },
    }));
    return { outcome: "unreadable", ...nothing, findings };
  }
  const assembly = recipe(design.value);
  const placed = assembly.findings.map((f): BenchFinding => ({ ...f, at: design.place(f.path) }));
  if (placed.some(isError)) return { outcome: "cannot", ...nothing, findings: placed };
  const plan = planSaw(design.value, assembly, rules);
  const findings = [...placed, ...plan.findings.map((f): BenchFinding => ({ ...f, at: null }))];
  if (findings.some(isError)) return { outcome: "cannot", ...nothing, findings };
  const revision = hashOf([version, source.text, rules.kerf, rules.trim, rules.stages].join("\0")).slice(
    0,
    8,
  );
  const files = [
    { file: "design.yaml", text: source.text },
    ...sawFiles(design.value, plan, rules, revision),
  ];
  const job: SawPlanJob = {
    name: design.value.name,
    units: "mm",
    kind: "saw-plan",
    tool: { name: "dryfit", version },
    design: { file: "design.yaml", sha256: hashOf(source.text) },
    revision,
    rules,
    sheets: plan.sheets.map(entryOf),
    findings,
    files: files.map(({ file, text }) => ({ file, sha256: hashOf(text) })),
  };
  const manifest = { file: "job.json", text: `${JSON.stringify(job, null, 2)}\n` };
  return { outcome: "made", files: [manifest, ...files], job, findings };
}

function entryOf({ id, stock, blanks, cuts, rests }: SawPlan["sheets"][number]): SawSheetEntry {
  const used = blanks.reduce((sum, { w, h }) => sum + w * h, 0);
  const share = used / (stock.size[0] * stock.size[1]);
  return JSON.parse(
    JSON.stringify({ id, size: stock.size, grain: stock.grain, yield: share, blanks, cuts, rests }, rounded),
  );
}

/** Float noise of sums stays out of the file. */
function rounded(_: string, value: unknown): unknown {
  return typeof value === "number" ? Number(value.toFixed(4)) + 0 : value;
}

function isError({ severity }: BenchFinding): boolean {
  return severity === "error";
}

function hashOf(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}
