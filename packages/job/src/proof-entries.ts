import type { JointProof, PartProof } from "@dryfit/verify";
import type { JobJoint, Verification } from "./job.ts";

/** A joint as a job.json tells of it: to the last decimal place that we print. */
export function jointEntry(joint: JointProof): JobJoint {
  return {
    ...joint,
    sideClearance: { min: printed(joint.sideClearance.min), max: printed(joint.sideClearance.max) },
    endGap: printed(joint.endGap),
    shoulderGap: printed(joint.shoulderGap),
    interference: printed(joint.interference),
  };
}

/** What was proved of the cuts. */
export function verificationOf(proof: {
  readonly pass: boolean;
  readonly gouge: number;
  readonly uncut: number;
  readonly perPart: readonly PartProof[];
}): Verification {
  return {
    pass: proof.pass,
    gouge: printed(proof.gouge),
    uncut: printed(proof.uncut),
    perPart: proof.perPart.map(({ part, gouge, uncut }) => ({
      part,
      gouge: printed(gouge),
      uncut: printed(uncut),
    })),
  };
}

/** Micrometres; no −0. */
function printed(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
