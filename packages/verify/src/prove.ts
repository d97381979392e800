import { CUT_MM } from "@dryfit/geometry";
import { dryFit, type Reading } from "./dryfit.ts";
import type { JobToProve, Proof } from "./proof.ts";
import { type CutProof, proveCuts } from "./prove-cuts.ts";
import { loadSolidKernel, type SolidKernel } from "./solids.ts";

/**
 * The whole proof of a job: what its programs cut, and whether what they cut goes together.
 *
 * It passes where no finding is an error and no part is off by more than CUT_MM. Hand over `kernel` to spare
 * its loading from one proof to the next, and `cuts` where they have been proved already.
 */
export async function prove(
  job: JobToProve,
  kernel?: SolidKernel,
  cuts: CutProof = proveCuts(job),
): Promise<Proof> {
  const densityOf = (material: string) => job.densities?.[material] ?? null;
  const cutParts = cuts.cutPartsAt("mean");
  const at = (reading: Reading) => (reading === "mean" ? cutParts : cuts.cutPartsAt(reading));
  const fit = dryFit(kernel ?? (await loadSolidKernel()), job.assembly, at, densityOf);
  const findings = [...cuts.findings, ...fit.findings];
  const gouge = Math.max(0, ...cuts.perPart.map((part) => part.gouge));
  const uncut = Math.max(0, ...cuts.perPart.map((part) => part.uncut));
  return {
    pass: gouge <= CUT_MM && uncut <= CUT_MM && findings.every(({ severity }) => severity !== "error"),
    gouge,
    uncut,
    perPart: cuts.perPart,
    joints: fit.joints,
    order: fit.order,
    ways: fit.ways,
    measures: fit.measures,
    setupsApart: cuts.setupsApart,
    engagements: cuts.engagements,
    swing: fit.swing,
    overlaps: fit.overlaps,
    programs: cuts.programs,
    cutParts,
    findings,
  };
}
