import { couponWays, type Finding } from "@dryfit/joinery";
import { prove, type SolidKernel } from "@dryfit/verify";
import { couponPapers, kerfDrawings } from "./coupon-papers.ts";
import { describe, FOLDER_NAMES, revisionOf } from "./describe.ts";
import { drawings, judged } from "./drawings.ts";
import { type JobInput, readInput, type Shop } from "./input.ts";
import type { Job, PlacedFinding } from "./job.ts";
import type { OutFile } from "./outfile.ts";
import { papers, verdictOf } from "./papers.ts";
import { pictures } from "./pictures.ts";
import { toProve } from "./proving.ts";
import { hasErrors, type OnStage, type Road, travel } from "./road.ts";
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
 * loading. An `onStage` that returns a promise is waited for, and one that throws ends the run there.
 */
export async function makeJob(
  input: JobInput,
  onStage: OnStage = () => {},
  kernel?: SolidKernel,
  work: Work = "case",
): Promise<Made> {
  await onStage("reading the design");
  const shop = readInput(input);
  if (!("design" in shop))
    return { outcome: "unreadable", files: [], job: null, findings: shop, shown: null };
  const revision = revisionOf(shop, input.version);
  const { nesting = {} } = input;
  const road = travel(shop.design, shop.machine, shop.cutters, onStage, {
    work,
    nesting,
    revision,
    directions: work === "coupon" ? couponWays : {},
  });
  if (hasErrors(road.findings)) {
    const findings = road.findings.map(shop.placed);
    return { outcome: "cannot", files: [], job: null, findings, shown: shownOf(road, shop, null) };
  }

  await onStage("drawing the sheets");
  const cut = [
    ...drawings(road, shop.design, revision),
    ...(work === "coupon" && !shop.design.layers ? kerfDrawings(shop.design, revision) : []),
    ...programFiles(road),
  ];
  const made = await proved(input.version, shop, road, cut, onStage, kernel, work);
  return { ...made, steps: road.steps };
}

/** The proof of `cut`, the texts that a machine or a service will read, and the papers that tell of it. */
export async function proved(
  version: string,
  shop: Shop,
  road: Road,
  cut: readonly OutFile[],
  onStage: OnStage,
  kernel: SolidKernel | undefined,
  work: Work,
): Promise<Made> {
  await onStage("proving the cuts and standing the case up");
  const proof = await prove(toProve(road, shop), kernel);
  const told: readonly Finding[] = [...road.findings, ...judged(cut.filter(isDxf)), ...proof.findings];
  const findings = told.map(shop.placed);
  const filed = findings.map((finding) => inFolder(finding, shop));
  const pass = proof.pass && !hasErrors(told);

  await onStage("drawing the papers");
  const read = new Map(proof.programs.map((program) => [program.file, program.read]));
  const shown = shownOf(road, shop, proof);
  const revision = revisionOf(shop, version);
  const title = { revision, verdict: verdictOf({ ...proof, pass }, findings) };
  const drawn = pictures(road, cut, read, title);
  const files = [
    { file: FOLDER_NAMES.design, text: shop.texts.design.text },
    { file: FOLDER_NAMES.machine, text: shop.texts.machine.text },
    { file: FOLDER_NAMES.cutters, text: shop.texts.cutters.text },
    ...(shop.prices ? [{ file: FOLDER_NAMES.prices, text: shop.prices.file.text }] : []),
    ...shop.drawings,
    ...cut,
    ...drawn,
    ...(work === "case"
      ? papers(shop, road, proof, read, drawn, filed, title)
      : couponPapers(shop.design, road.assembly, shop.machine, revision)),
  ];
  if (!pass) return { outcome: "disproved", files: [], job: null, findings, shown };
  const job = describe(shop, version, road, proof, read, files, filed, work);
  const manifest = { file: "job.json", text: `${JSON.stringify(job, null, 2)}\n` };
  return { outcome: "made", files: [manifest, ...files], job, findings, shown };
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

const isDxf = ({ file }: OutFile): boolean => file.endsWith(".dxf");
