import type { JointProof, Proof } from "./proof.ts";

/** A joint as files and papers tell of it: to the micrometre, the last decimal place that we print; no −0. */
export function printedJoint(joint: JointProof): JointProof {
  const { min, max } = joint.sideClearance;
  return {
    ...joint,
    sideClearance: { min: printed(min), max: printed(max) },
    endGap: printed(joint.endGap),
    shoulderGap: printed(joint.shoulderGap),
    interference: printed(joint.interference),
  };
}

/** What the case weighs, to the gram: a density is known no nearer. Null where none is. */
export function printedWeight({ measures }: Pick<Proof, "measures">): number | null {
  return measures?.weightKg == null ? null : printed(measures.weightKg);
}

/** The widest error in words, to the micrometre: a nought there would promise more than is known. */
export function printedError(mm: number): string {
  return mm < 0.0005 ? "under 0.001 mm" : `${mm.toFixed(3)} mm`;
}

function printed(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
