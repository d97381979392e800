import { withDrawingFiles } from "@dryfit/dxf";
import { type Cutter, type Machine, readCutters, readMachine } from "@dryfit/gcode";
import {
  type Design,
  type FileProblem,
  type Finding,
  type Place,
  type Prices,
  type Read,
  readDesign,
  readPrices,
} from "@dryfit/joinery";
import type { PlacedFinding } from "./job.ts";
import type { OutFile } from "./outfile.ts";
import type { Nesting } from "./road.ts";
import { SHIPPED_CUTTERS, SHIPPED_MACHINE } from "./shipped-shop.ts";

/** The texts that a job is made from. */
export interface JobInput {
  readonly design: OutFile;
  /** Null: the shop file that comes with dryfit. */
  readonly machine: OutFile | null;
  readonly cutters: OutFile | null;
  /** The drawings that the design names, by the names it gives them; absent: none is at hand. */
  readonly drawings?: readonly OutFile[];
  /** What things cost; absent or null: only what the design's sheets say. */
  readonly prices?: OutFile | null;
  /** Of the tool, for job.json. */
  readonly version: string;
  /** How long parts are laid on sheets; absent: a moment. */
  readonly nesting?: Nesting;
}

/** The same, read. */
export interface Shop {
  readonly design: Design;
  readonly machine: Machine;
  readonly cutters: readonly Cutter[];
  readonly texts: { readonly design: OutFile; readonly machine: OutFile; readonly cutters: OutFile };
  readonly prices: { readonly file: OutFile; readonly value: Prices } | null;
  /** The drawings that the design names, as far as they are at hand. */
  readonly drawings: readonly OutFile[];
  /** The finding with the place of the value that it speaks of, where one of the files holds it. */
  readonly placed: (finding: Finding) => PlacedFinding;
}

/** Reads all three files. Returns every problem of every one where any cannot be read. */
export function readInput(input: JobInput): Shop | readonly PlacedFinding[] {
  const texts = {
    design: input.design,
    machine: input.machine ?? SHIPPED_MACHINE,
    cutters: input.cutters ?? SHIPPED_CUTTERS,
  };
  const design = readDesign(texts.design.text, texts.design.file);
  const machine = readMachine(texts.machine.text, texts.machine.file);
  const cutters = readCutters(texts.cutters.text, texts.cutters.file);
  const prices = input.prices ? readPrices(input.prices.text, input.prices.file) : null;
  if (!design.ok || !machine.ok || !cutters.ok || prices?.ok === false)
    return [design, machine, cutters, ...(prices ? [prices] : [])].flatMap((read) =>
      read.ok ? [] : read.problems.map(unreadable),
    );
  const drawn = withDrawingFiles(design.value, input.drawings ?? []);
  return {
    design: drawn.design,
    machine: machine.value,
    cutters: cutters.value,
    texts,
    prices: prices && input.prices ? { file: input.prices, value: prices.value } : null,
    drawings: drawn.used,
    placed: (finding) => ({ ...finding, at: placeOf(finding.path, design, machine, cutters) }),
  };
}

export function unreadable(problem: FileProblem): PlacedFinding {
  return {
    code: "unreadable",
    severity: "error",
    path: problem.path,
    message: `Found ${problem.found}.`,
    wayOut: `Allowed: ${problem.allowed}.`,
    numbers: {},
    at: { file: problem.file, line: problem.line, column: problem.column },
  };
}

type ReadWell = Extract<Read<unknown>, { ok: true }>;

/** Paths of the shop files begin with the file's kind ("machine.travel", "cutters[2].diameter"). */
function placeOf(
  path: string,
  design: ReadWell,
  machine: ReadWell,
  cutters: Extract<Read<readonly Cutter[]>, { ok: true }>,
): Place | null {
  if (/\.(nc|dxf|svg)(:|$)/i.test(path)) return null;
  const [head = ""] = path.split(/[.[]/);
  if (head === "machine") return machine.place(path.slice("machine.".length));
  if (head === "cutters") return cutters.place(byIndex(path, cutters.value));
  return DESIGN_KEYS.has(head) ? design.place(path) : null;
}

/** "cutters.up-6.maxRpm" as the file counts: "cutters[0].maxRpm". */
function byIndex(path: string, cutters: readonly Cutter[]): string {
  const [, id, key] = /^cutters\.([^.]+)\.(.*)$/.exec(path) ?? [];
  const index = cutters.findIndex((cutter) => cutter.id === id);
  return index < 0 ? path : `cutters[${index}].${key}`;
}

const DESIGN_KEYS: ReadonlySet<string> = new Set([
  "name",
  "units",
  "inside",
  "sheet",
  "construction",
  "joint",
  "layers",
  "cutter",
  "cheek",
  "tier",
  "openings",
  "edges",
]);
