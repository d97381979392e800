import { BUILD_SHEET_FILES, type BuildSheetData, buildSheetFile } from "@dryfit/drawing";
import { couponWays, type Finding } from "@dryfit/joinery";
import {
  type CutProof,
  type JobToProve,
  prove,
  proveCutsWith,
  type SolidKernel,
  sharesOf,
} from "@dryfit/verify";
import { alone, type Beside, begun } from "./beside.ts";
import { couponPapers, kerfDrawings } from "./coupon-papers.ts";
import { describe, FOLDER_NAMES, revisionOf } from "./describe.ts";
import { judged } from "./drawings.ts";
import { type JobInput, readInput, type Shop } from "./input.ts";
import type { Job, PlacedFinding } from "./job.ts";
import type { OutFile } from "./outfile.ts";
import { paperData, type Title, verdictOf } from "./papers.ts";
import { toProve } from "./proving.ts";
import { hasErrors, type OnStage, type Road, travelInStages } from "./road.ts";
import { type Shown, shownOf } from "./shown.ts";
import type { Work } from "./work.ts";

export interface Made {
  /** As the exit codes say: made and proved; cannot be made; could not be read; a proof failed. */
  readonly outcome: "made" | "cannot" | "unreadable" | "disproved";
  /** The whole folder where `outcome` is "made", else nothing. */
  readonly files: readonly OutFile[];
  /** Null unless made. */
  readonly job: Job | null;
  readonly findings: readonly PlacedFinding[];
  /** Null where the input could not be read, or a folder cannot be checked. */
  readonly shown: Shown | null;
  /** Steps of the search that lay the parts like this again. */
  readonly steps?: number;
}

/**
 * From the texts of a design and a shop to the folder's files, proved from the texts as written; `kernel` spares its
 * loading. An `onStage` that returns a promise is waited for, and one that throws ends the run there. `beside` has
 * shares of the work done by somebody else meanwhile.
 */
export async function makeJob(
  input: JobInput,
  onStage: OnStage = () => {},
  kernel?: SolidKernel,
  work: Work = "case",
  beside: Beside = alone,
): Promise<Made> {
  await onStage("reading the design");
  const shop = readInput(input);
  if (!("design" in shop))
    return { outcome: "unreadable", files: [], job: null, findings: shop, shown: null };
  const revision = revisionOf(shop, input.version);
  const { nesting = {} } = input;
  const road = await travelInStages(shop.design, shop.machine, shop.cutters, onStage, {
    work,
    nesting,
    revision,
    directions: work === "coupon" ? couponWays : {},
    ...(beside === alone ? {} : { rehearsedBeside: (...asked) => begun(beside("rehearse", ...asked)) }),
  });
  if (hasErrors(road.findings)) {
    const findings = road.findings.map(shop.placed);
    return { outcome: "cannot", files: [], job: null, findings, shown: shownOf(road, shop, null) };
  }

  const written = async (title: Title): Promise<Written> => {
    const { assembly, layout, flips, programs } = road;
    const pictured = { assembly, layout, flips, programs };
    const { dwellUnit } = shop.machine.controller;
    const drawn = await beside("draw", pictured, { cutter: shop.design.cutter }, { dwellUnit }, title);
    const kerf = work === "coupon" && !shop.design.layers ? kerfDrawings(shop.design, revision) : [];
    return {
      cut: [...drawn.files, ...kerf, ...programFiles(road)],
      objections: [...drawn.findings, ...judged(kerf)],
      pictures: () => drawn.pictures,
    };
  };
  const made = await proved(input.version, shop, road, written, onStage, kernel, work, beside);
  return { ...made, steps: road.steps };
}

/** The texts that a machine or a service will read, what a service has against its drawings, and pictures of them. */
export interface Written {
  readonly cut: readonly OutFile[];
  readonly objections: readonly Finding[];
  /** Asked for only where everything is proved. */
  readonly pictures: () => readonly OutFile[];
}

/**
 * The proof of what is written, and the papers that tell of it. `written` is asked once the cuts are proved: whoever
 * stands beside draws while the case stands up.
 */
export async function proved(
  version: string,
  shop: Shop,
  road: Road,
  written: (title: Title) => Promise<Written>,
  onStage: OnStage,
  kernel: SolidKernel | undefined,
  work: Work,
  beside: Beside = alone,
): Promise<Made> {
  await onStage("proving the cuts");
  const job = toProve(road, shop);
  const cuts = await cutsProved(job, beside);

  await onStage("standing the case up");
  const revision = revisionOf(shop, version);
  // Pictures are drawn as of a case that is proved: of any other, none leaves.
  const passed = { revision, verdict: verdictOf({ pass: true, ...widestIn(cuts) }, []) };
  const drawing = begun(written(passed));
  const proof = await prove(job, kernel, cuts);
  const { cut, objections, pictures } = await drawing;
  const told: readonly Finding[] = [...road.findings, ...objections, ...proof.findings];
  const findings = told.map(shop.placed);
  const filed = findings.map((finding) => inFolder(finding, shop));
  const pass = proof.pass && !hasErrors(told);

  await onStage("drawing the papers");
  const read = new Map(proof.programs.map((program) => [program.file, program.read]));
  const shown = shownOf(road, shop, proof);
  if (!pass) return { outcome: "disproved", files: [], job: null, findings, shown };
  const pictured = pictures();
  const files = [
    { file: FOLDER_NAMES.design, text: shop.texts.design.text },
    { file: FOLDER_NAMES.machine, text: shop.texts.machine.text },
    { file: FOLDER_NAMES.cutters, text: shop.texts.cutters.text },
    ...(shop.prices ? [{ file: FOLDER_NAMES.prices, text: shop.prices.file.text }] : []),
    ...shop.drawings,
    ...cut,
    ...pictured,
    ...(work === "case"
      ? await printed(paperData(shop, road, proof, read, pictured, filed, passed), beside)
      : couponPapers(shop.design, road.assembly, shop.machine, revision)),
  ];
  const about = describe(shop, version, road, proof, read, files, filed, work);
  const manifest = { file: "job.json", text: `${JSON.stringify(about, null, 2)}\n` };
  return { outcome: "made", files: [manifest, ...files], job: about, findings, shown };
}

function cutsProved(job: JobToProve, beside: Beside): Promise<CutProof> {
  const { own, others } = sharesOf(job);
  return proveCutsWith(job, own, begun(beside("prove", job, others)));
}

function widestIn({ perPart }: CutProof): { readonly gouge: number; readonly uncut: number } {
  return {
    gouge: Math.max(0, ...perPart.map(({ gouge }) => gouge)),
    uncut: Math.max(0, ...perPart.map(({ uncut }) => uncut)),
  };
}

/** The print takes longest: somebody else sets it meanwhile. */
async function printed(data: BuildSheetData, beside: Beside): Promise<readonly OutFile[]> {
  const share = begun(beside("print", data, "build-sheet.pdf"));
  const own = BUILD_SHEET_FILES.filter((file) => file !== "build-sheet.pdf").map((file) =>
    buildSheetFile(data, file),
  );
  const all: readonly OutFile[] = [...own, await share];
  return BUILD_SHEET_FILES.map((file) => all.find((each) => each.file === file)!);
}

function programFiles(road: Road): readonly OutFile[] {
  return road.programs.map(({ file, text }) => ({ file: `gcode/${file}`, text }));
}

/** Its place named as the folder names the file: where the design lay before makes no difference to the job. */
function inFolder(finding: PlacedFinding, { texts }: Shop): PlacedFinding {
  const { at } = finding;
  const kind = (["design", "machine", "cutters"] as const).find((each) => texts[each].file === at?.file);
  return at && kind ? { ...finding, at: { ...at, file: FOLDER_NAMES[kind] } } : finding;
}
