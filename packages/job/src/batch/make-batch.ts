import type { Cutter, Machine } from "@dryfit/gcode";
import {
  type Assembly,
  type Design,
  type Finding,
  named,
  recipe,
  together,
  withValue,
} from "@dryfit/joinery";
import type { NestJob, Stock } from "@dryfit/nest";
import { loadSolidKernel, type SolidKernel } from "@dryfit/verify";
import { withClamps } from "../clamps.ts";
import { drawings } from "../drawings.ts";
import { type JobInput, readInput, type Shop, unreadable } from "../input.ts";
import type { PlacedFinding } from "../job.ts";
import { locksLeftOut } from "../locks.ts";
import type { OutFile } from "../outfile.ts";
import { cuttersFor, hasErrors, type OnStage, travelOn } from "../road.ts";
import { stocksOf } from "../stocks.ts";
import { readBatch } from "./batch-file.ts";
import type { BatchMade } from "./batch-job.ts";
import { batchRevision, provedBatch } from "./prove-batch.ts";

export interface BatchInput extends Omit<JobInput, "design" | "drawings"> {
  readonly batch: OutFile;
  /** The design files, named as the batch file names them, each with the drawings that it names. */
  readonly designs: readonly { readonly design: OutFile; readonly drawings: readonly OutFile[] }[];
}

/** One case of a batch, read. */
export interface BatchCase {
  readonly id: string;
  readonly shop: Shop;
  /** Its parts and joints bear its name. */
  readonly assembly: Assembly;
}

/** Which design files a batch file names, each once; what is wrong with it, else. */
export function designsOf(batch: OutFile): readonly string[] | readonly PlacedFinding[] {
  const read = readBatch(batch.text, batch.file);
  return read.ok ? [...new Set(read.value.cases.map(({ design }) => design))] : read.problems.map(unreadable);
}

/** Several cases nested, cut and proved as one job, each stood up by itself; all or nothing. */
export async function makeBatch(
  input: BatchInput,
  onStage: OnStage = () => {},
  kernel?: SolidKernel,
): Promise<BatchMade> {
  onStage("reading the designs");
  const read = readBatch(input.batch.text, input.batch.file);
  if (!read.ok) return nothing("unreadable", read.problems.map(unreadable));
  const { name, thickness, cases: wanted } = read.value;
  const shops = wanted.map(({ id, design }) => {
    const given = input.designs.find((each) => each.design.file === design);
    if (!given) throw new RangeError(`the text of ${design} is missing`);
    const { drawings } = given;
    return { id, shop: readInput({ ...input, design: withThickness(given.design, thickness), drawings }) };
  });
  const problems = shops.flatMap(({ shop }) => ("design" in shop ? [] : shop));
  if (problems.length > 0) return nothing("unreadable", eachOnce(problems));
  const cases = shops.map(({ id, shop }) => caseOf(id, shop as Shop));

  onStage("working out the parts");
  const told = toldOf(cases);
  const mixed = mixedSheets(cases).map(cases[0]!.shop.placed);
  if (hasErrors([...told, ...mixed])) return nothing("cannot", [...told, ...mixed]);

  const all = {
    ...together(
      name,
      cases.map(({ assembly }) => assembly),
    ),
    findings: [],
  };
  const { machine, cutters } = cases[0]!.shop;
  const { version, batch } = input;
  const revision = batchRevision({ version, batch, cases });
  const nesting = input.nesting ?? { steps: STEPS_PER_PART * all.parts.length };
  const fit = fitting(cases, cutters);
  const roughers = cutters.filter((cutter) => !fit.includes(cutter));
  const road = travelOn(all, nestJob(cases, machine), machine, fit, onStage, { nesting, revision, roughers });
  if (hasErrors(road.findings)) return nothing("cannot", [...told, ...road.findings.map(nowhere)]);

  onStage("drawing the sheets");
  const cut = [
    ...drawings(road, narrowest(cases), revision),
    ...road.programs.map(({ file, text }) => ({ file: `gcode/${file}`, text })),
  ];
  return provedBatch(
    { version, batch, cases, road, cut, told },
    onStage,
    kernel ?? (await loadSolidKernel()),
  );
}

export function caseOf(id: string, shop: Shop): BatchCase {
  return { id, shop, assembly: named(recipe(shop.design), id) };
}

/** The design with the batch's readings in it: what lies in the folder is what was made. */
function withThickness(design: OutFile, readings: readonly number[] | null): OutFile {
  if (readings === null) return design;
  const value = readings.length === 1 ? `${readings[0]} mm` : readings.map((mm) => `${mm} mm`);
  // A text that cannot be edited cannot be read either, and the reader says why.
  return { ...design, text: withValue(design.text, "sheet.thickness", value) ?? design.text };
}

/** What nesting may spend: as much for a part as a case alone gets for each of its dozen. */
const STEPS_PER_PART = 200;

/** What the designs have to say: each once, however many copies are cut and however many say the same. */
export function toldOf(cases: readonly BatchCase[]): readonly PlacedFinding[] {
  const texts = cases.map(({ shop }) => shop.texts.design.text);
  const all = cases.flatMap(({ id, shop, assembly }, i) => {
    if (texts.indexOf(texts[i]!) < i) return [];
    const locked = locksLeftOut(shop.design, "in a batch: its sheets are shared.");
    return [...assembly.findings, ...locked].map((finding) => ({ id, finding: shop.placed(finding) }));
  });
  const alike = new Map<string, { readonly ids: string[]; readonly finding: PlacedFinding }>();
  for (const { id, finding } of all) {
    const key = JSON.stringify([finding.code, finding.path, finding.message, finding.wayOut]);
    const before = alike.get(key);
    if (before && !before.ids.includes(id)) before.ids.push(id);
    else if (!before) alike.set(key, { ids: [id], finding });
  }
  return [...alike.values()].map(({ ids, finding }) => ({
    ...finding,
    message: `${someOf(ids)}: ${finding.message}`,
  }));
}

/** "reef", "reef, weir and 3 more". */
function someOf(ids: readonly string[]): string {
  if (ids.length < 4) return ids.join(", ");
  return `${ids.slice(0, 2).join(", ")} and ${ids.length - 2} more`;
}

/** A sheet has one thickness, whichever case its parts are for. */
function mixedSheets(cases: readonly BatchCase[]): readonly Finding[] {
  const [first, ...others] = cases;
  const mean = ({ shop }: BatchCase) => shop.design.sheet.thickness.mean;
  return others.flatMap((other): Finding[] => {
    const same = other.shop.design.sheet.name === first!.shop.design.sheet.name;
    if (!same || JSON.stringify(thicknessOf(other)) === JSON.stringify(thicknessOf(first!))) return [];
    return [
      {
        code: "batch_sheets_differ",
        severity: "error",
        path: "sheet.thickness",
        message: `${first!.id} is drawn for ${shown(mean(first!))} mm of ${first!.shop.design.sheet.name}, ${other.id} for ${shown(mean(other))} mm: they cannot share a sheet.`,
        wayOut: "Give one thickness for all in the batch file, or make two batches.",
        numbers: { first: mean(first!), other: mean(other) },
      },
    ];
  });
}

function thicknessOf({ shop }: BatchCase): Design["sheet"]["thickness"] {
  return shop.design.sheet.thickness;
}

function shown(mm: number): string {
  return String(Number(mm.toFixed(2)));
}

/** As wide apart as the widest asks; sheets that several designs name are there once. */
function nestJob(cases: readonly BatchCase[], machine: Machine): NestJob {
  const designs = cases.map(({ shop }) => shop.design);
  const parts = cases.flatMap(({ assembly }) => assembly.parts);
  return {
    parts,
    stocks: withClamps(stocksOfAll(designs), machine, parts),
    rules: {
      spacing: Math.max(...designs.map(({ cutter, sheet }) => cutter + sheet.web)),
      margin: Math.max(...designs.map(({ sheet }) => sheet.margin)),
    },
    seed: 1,
  };
}

export function stocksOfAll(designs: readonly Design[]): readonly Stock[] {
  const found = new Map<string, Stock>();
  for (const stock of designs.flatMap(stocksOf)) {
    const { count: _, id: __, ...kind } = stock;
    const key = JSON.stringify(kind);
    const before = found.get(key);
    found.set(key, before ? { ...before, count: more(before.count, stock.count) } : stock);
  }
  return [...found.values()].map((stock, i, all) =>
    all.findIndex(({ id }) => id === stock.id) === i ? stock : { ...stock, id: `${stock.id}-${i + 1}` },
  );
}

function more(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : Math.max(a, b);
}

/** Cutters that fit the corners of every case. */
function fitting(cases: readonly BatchCase[], drawer: readonly Cutter[]): readonly Cutter[] {
  return cuttersFor(narrowest(cases), drawer);
}

function narrowest(cases: readonly BatchCase[]): Design {
  return cases.map(({ shop }) => shop.design).reduce((a, b) => (b.cutter < a.cutter ? b : a));
}

function eachOnce(findings: readonly PlacedFinding[]): readonly PlacedFinding[] {
  return [...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values()];
}

function nowhere(finding: Finding): PlacedFinding {
  return { ...finding, at: null };
}

function nothing(outcome: "cannot" | "unreadable", findings: readonly PlacedFinding[]): BatchMade {
  return { outcome, files: [], job: null, findings };
}
