import { CUT_MM } from "@dryfit/geometry";
import { areaOfPart, type Finding, type Used } from "@dryfit/joinery";
import {
  type CutProof,
  dryFit,
  type Proof,
  printedJoint,
  printedWeight,
  proveCuts,
  type SolidKernel,
} from "@dryfit/verify";
import { describe, FOLDER_NAMES } from "../describe.ts";
import { judged } from "../drawings.ts";
import type { PlacedFinding } from "../job.ts";
import { type OutFile, sha256Of } from "../outfile.ts";
import { paperData, spentOn, verdictOf } from "../papers.ts";
import { pictures } from "../pictures.ts";
import { toProve } from "../proving.ts";
import { hasErrors, type OnStage, type Road } from "../road.ts";
import type { BatchJobCase, BatchMade } from "./batch-job.ts";
import { casePapers, sheetPapers } from "./batch-papers.ts";
import type { BatchCase } from "./make-batch.ts";

interface ToProve {
  readonly version: string;
  readonly batch: OutFile;
  readonly cases: readonly BatchCase[];
  readonly road: Road;
  /** The texts that a machine or a service will read. */
  readonly cut: readonly OutFile[];
  /** What the designs had to say. */
  readonly told: readonly PlacedFinding[];
}

/** Eight digits that change whenever anything that the papers depend on does. */
export function batchRevision({
  version,
  batch,
  cases,
}: Pick<ToProve, "version" | "batch" | "cases">): string {
  const {
    prices,
    texts: { machine, cutters },
  } = cases[0]!.shop;
  const texts = cases.flatMap(({ shop }) => [shop.texts.design, ...shop.drawings]);
  const priced = prices ? [prices.file] : [];
  const all = [version, ...[batch, ...texts, machine, cutters, ...priced].map(({ text }) => text)];
  return sha256Of(all.join("\0")).slice(0, 8);
}

/** The sheets are proved as one job; each case is stood up from its own parts. */
export async function provedBatch(
  { version, batch, cases, road, cut, told }: ToProve,
  onStage: OnStage,
  kernel: SolidKernel,
): Promise<BatchMade> {
  const shop = cases[0]!.shop;
  onStage("proving the cuts");
  const cuts = cutOnce(proveCuts(toProve(road, shop)));
  const proofs = cases.map((one, i) => {
    onStage(`standing case ${i + 1} of ${cases.length} up`);
    return proofOf(one, cuts, kernel);
  });
  const ofSheets: readonly Finding[] = [...road.findings, ...judged(cut.filter(isDxf)), ...cuts.findings];
  const findings = [
    ...told,
    ...ofSheets.map((finding) => ({ ...finding, at: null })),
    ...proofs.flatMap(({ findings }, i) => findings.map(cases[i]!.shop.placed)),
  ];
  const whole = together(cuts, proofs, !hasErrors(findings));
  if (!whole.pass) return { outcome: "disproved", files: [], job: null, findings };

  onStage("drawing the papers");
  const read = new Map(cuts.programs.map((program) => [program.file, program.read]));
  const revision = batchRevision({ version, batch, cases });
  const title = { revision, verdict: verdictOf(whole, []) };
  const drawn = pictures(road, cut, read, title);
  const files: readonly OutFile[] = [
    { file: "batch.yaml", text: batch.text },
    { file: FOLDER_NAMES.machine, text: shop.texts.machine.text },
    { file: FOLDER_NAMES.cutters, text: shop.texts.cutters.text },
    ...(shop.prices ? [{ file: FOLDER_NAMES.prices, text: shop.prices.file.text }] : []),
    ...cut,
    ...drawn,
    ...sheetPapers(road.assembly.name, cases, paperData(shop, road, whole, read, drawn, findings, title)),
    ...cases.flatMap((one, i): OutFile[] => {
      const own = roadOf(one, road);
      const about = [...one.assembly.findings, ...proofs[i]!.findings].map(one.shop.placed);
      const used = usedBy(one, road);
      const data = paperData(one.shop, own, proofs[i]!, read, drawn, about, title, used);
      return [
        { file: designFile(one), text: one.shop.texts.design.text },
        ...one.shop.drawings.map(({ file, text }) => ({ file: `cases/${one.id}/${file}`, text })),
        ...casePapers(one, data, used.minutes),
      ];
    }),
  ];
  const job = {
    ...describe(shop, version, road, whole, read, files, findings, "case"),
    kind: "batch" as const,
    cost: null,
    finish: null,
    design: { file: "batch.yaml", sha256: sha256Of(batch.text) },
    revision,
    cases: cases.map((one, i) => entryOf(one, road, proofs[i]!)),
  };
  const manifest = { file: "job.json", text: `${JSON.stringify(job, null, 2)}\n` };
  return { outcome: "made", files: [manifest, ...files], job, findings };
}

/** Each part is cut once for a reading, however many cases are looked at. */
function cutOnce(cuts: CutProof): CutProof {
  const known = new Map<string, ReturnType<CutProof["cutPartsAt"]>>();
  const cutPartsAt: CutProof["cutPartsAt"] = (reading) => {
    const before = known.get(reading) ?? cuts.cutPartsAt(reading);
    known.set(reading, before);
    return before;
  };
  return { ...cuts, cutPartsAt };
}

/** The case's own share of the proof. */
function proofOf({ shop, assembly }: BatchCase, cuts: CutProof, kernel: SolidKernel): Proof {
  const own = new Set(assembly.parts.map(({ id }) => id));
  const perPart = cuts.perPart.filter(({ part }) => own.has(part));
  const cutPartsAt: CutProof["cutPartsAt"] = (reading) =>
    cuts.cutPartsAt(reading).filter(({ part }) => own.has(part));
  const { name, density } = shop.design.sheet;
  const fit = dryFit(kernel, assembly, cutPartsAt, (material) => (material === name ? density : null));
  const proof = {
    ...fit,
    perPart,
    programs: cuts.programs,
    setupsApart: cuts.setupsApart,
    cutParts: cutPartsAt("mean"),
  };
  return { ...proof, ...widest(perPart), pass: !hasErrors(fit.findings) };
}

function together(cuts: CutProof, proofs: readonly Proof[], pass: boolean): Proof {
  const found = widest(cuts.perPart);
  return {
    ...found,
    pass: pass && found.gouge <= CUT_MM && found.uncut <= CUT_MM,
    perPart: cuts.perPart,
    joints: proofs.flatMap(({ joints }) => joints),
    order: proofs.flatMap(({ order }) => order),
    ways: Object.assign({}, ...proofs.map(({ ways }) => ways)),
    measures: null,
    swing: null,
    overlaps: proofs.flatMap(({ overlaps }) => overlaps),
    programs: cuts.programs,
    setupsApart: cuts.setupsApart,
    engagements: cuts.engagements,
    cutParts: [],
    findings: proofs.flatMap(({ findings }) => findings),
  };
}

function widest(perPart: CutProof["perPart"]): { readonly gouge: number; readonly uncut: number } {
  return {
    gouge: Math.max(0, ...perPart.map(({ gouge }) => gouge)),
    uncut: Math.max(0, ...perPart.map(({ uncut }) => uncut)),
  };
}

/** The sheets on which the case has parts, with their programs. */
function roadOf({ assembly }: BatchCase, road: Road): Road {
  const own = new Set(assembly.parts.map(({ id }) => id));
  const sheets = road.layout.sheets.filter(({ parts }) => parts.some(({ part }) => own.has(part)));
  const here = new Set(sheets.map(({ id }) => id));
  return {
    ...road,
    assembly,
    layout: { ...road.layout, sheets },
    programs: road.programs.filter(({ sheet }) => here.has(sheet)),
  };
}

function entryOf(one: BatchCase, road: Road, proof: Proof): BatchJobCase {
  const own = roadOf(one, road);
  const used = usedBy(one, road);
  return {
    id: one.id,
    design: { file: designFile(one), sha256: sha256Of(one.shop.texts.design.text) },
    parts: one.assembly.parts.map(({ id }) => id),
    sheets: own.layout.sheets.map(({ id }) => id),
    minutes: round(used.minutes),
    weightKg: printedWeight(proof),
    ...spentOn(one.shop, one, used),
    joints: proof.joints.map(printedJoint),
    order: proof.order,
  };
}

/** What the case uses up of the sheets that it shares, and of the machine's time on them. */
function usedBy(one: BatchCase, road: Road): Used {
  const shared = roadOf(one, road).layout.sheets.map((sheet) => ({
    sheet,
    share: shareOf(one, sheet, road),
  }));
  const minutesOn = (id: string) =>
    road.programs.reduce((sum, { sheet, minutes }) => (sheet === id ? sum + minutes : sum), 0);
  return {
    sheets: shared.map(({ sheet: { stock }, share }) => ({ ...stock, kind: stock.id, share })),
    minutes: shared.reduce((sum, { sheet, share }) => sum + share * minutesOn(sheet.id), 0),
  };
}

/** The case's part of a sheet, by the area of all that is cut from it. */
function shareOf(one: BatchCase, sheet: Road["layout"]["sheets"][number], road: Road): number {
  const parts = new Map(road.assembly.parts.map((part) => [part.id, areaOfPart(part)]));
  const own = new Set(one.assembly.parts.map(({ id }) => id));
  const area = (wanted: (part: string) => boolean) =>
    sheet.parts.reduce((sum, { part }) => (wanted(part) ? sum + parts.get(part)! : sum), 0);
  return area((part) => own.has(part)) / area(() => true);
}

function designFile({ id }: BatchCase): string {
  return `cases/${id}/design.yaml`;
}

function isDxf({ file }: OutFile): boolean {
  return file.endsWith(".dxf");
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
