import { withDrawingFiles } from "@dryfit/dxf";
import { type Assembly, type Design, readDesign, recipe } from "@dryfit/joinery";
import type { Budget, SawPlan, SawRules } from "@dryfit/nest";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { sawFiles } from "./saw-files.ts";
import { blankOf, planSaw } from "./saw-plan.ts";
import { replaySaw } from "./saw-replay.ts";
import type { BenchFinding, BenchMade, TextFile } from "./templates-job.ts";

export interface SawInput {
  readonly design: TextFile;
  /** The drawings that the design names, by the names it gives them; absent: none is at hand. */
  readonly drawings?: readonly TextFile[];
  readonly rules: SawRules;
  /** Of the tool, for job.json. */
  readonly version: string;
  /** What the search may spend; absent: a moment. */
  readonly budget?: Budget;
}

export type SawMade = BenchMade<SawPlanJob>;

/** job.json of a folder with a saw plan. Lengths in mm. */
export interface SawPlanJob {
  readonly name: string;
  readonly units: "mm";
  readonly kind: "saw-plan";
  readonly tool: { readonly name: "dryfit"; readonly version: string };
  readonly design: { readonly file: string; readonly sha256: string };
  readonly revision: string;
  readonly rules: SawRules;
  /** Of the search: as many give the same plan again. */
  readonly steps: number;
  readonly sheets: readonly SawSheetEntry[];
  readonly findings: readonly BenchFinding[];
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
}

interface SawSheetEntry extends Pick<SawPlan["sheets"][number], "id" | "blanks" | "cuts" | "rests"> {
  readonly size: readonly [number, number];
  readonly grain: "x" | "y";
  readonly yield: number;
}

/** From the text of a design to a folder with its saw plan, sawn once in the head; pure, the same bytes each time. */
export function makeSawPlan(input: SawInput): SawMade {
  const read = sawCase(input);
  if (!("assembly" in read)) return read;
  const { rules, version } = input;
  const { design, assembly, drawings } = read;
  const plan = planSaw(design, assembly, rules, input.budget);
  const findings = [...read.findings, ...plan.findings.map((f): BenchFinding => ({ ...f, at: null }))];
  if (findings.some(isError)) return { outcome: "cannot", files: [], job: null, findings };
  const blanks = assembly.parts.map(blankOf);
  const sheets = plan.sheets.map(entryOf);
  const wrong = sheets.flatMap((sheet) => replaySaw(sheet, blanks, rules)).map(disproof);
  if (wrong.length > 0)
    return { outcome: "disproved", files: [], job: null, findings: [...findings, ...wrong] };
  const sources = [{ file: "design.yaml", text: input.design.text }, ...drawings];
  const revision = hashOf(
    [version, ...sources.map(({ text }) => text), rules.kerf, rules.trim, rules.stages].join("\0"),
  ).slice(0, 8);
  const files = [...sources, ...sawFiles(design, plan, rules, revision)];
  const job: SawPlanJob = {
    name: design.name,
    units: "mm",
    kind: "saw-plan",
    tool: { name: "dryfit", version },
    design: { file: "design.yaml", sha256: hashOf(input.design.text) },
    revision,
    rules,
    steps: plan.steps,
    sheets,
    findings,
    files: files.map(({ file, text }) => ({ file, sha256: hashOf(text) })),
  };
  const manifest = { file: "job.json", text: `${JSON.stringify(job, null, 2)}\n` };
  return { outcome: "made", files: [manifest, ...files], job, findings };
}

/** The case whose blanks are sawn, or why there is none. */
export function sawCase({ design: source, drawings = [] }: SawInput):
  | SawMade
  | {
      readonly design: Design;
      readonly assembly: Assembly;
      readonly drawings: readonly TextFile[];
      readonly findings: readonly BenchFinding[];
    } {
  const read = readDesign(source.text, source.file);
  const nothing = { files: [], job: null };
  if (!read.ok) {
    const findings = read.problems.map(({ path, found, allowed, file, line, column }) => ({
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
  const drawn = withDrawingFiles(read.value, drawings);
  const assembly = recipe(drawn.design);
  const findings = assembly.findings.map((f): BenchFinding => ({ ...f, at: read.place(f.path) }));
  if (findings.some(isError)) return { outcome: "cannot", ...nothing, findings };
  return { design: drawn.design, assembly, drawings: drawn.used, findings };
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

/** A list that does not give the blanks is a fault of ours. */
function disproof(fault: string): BenchFinding {
  const message = `Sawn as listed, ${fault}.`;
  return { code: "saw_plan_wrong", severity: "error", path: "sheet", message, numbers: {}, at: null };
}

function isError({ severity }: BenchFinding): boolean {
  return severity === "error";
}

function hashOf(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}
