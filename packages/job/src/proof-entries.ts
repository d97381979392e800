import type { PartProof, Proof } from "@dryfit/verify";
import type { JobCleared, Verification } from "./job.ts";
import type { WrittenProgram } from "./road.ts";

/** How a recess is cleared, as planned and as the proof found it in the program's text. */
export function clearedEntry(
  { part, feature, method, engagement, limit, minutes }: WrittenProgram["cleared"][number],
  file: string,
  found: NonNullable<Proof["engagements"]>,
): JobCleared {
  const own = found.find((one) => one.file === file && one.part === part && one.feature === feature);
  return {
    part,
    feature,
    method,
    engagementDeg: degrees(engagement),
    limitDeg: limit === null ? null : degrees(limit),
    highestDeg: own === undefined ? null : degrees(own.highest),
    minutes: printed(minutes),
  };
}

/** To a tenth. */
function degrees(angle: number): number {
  return Math.round((angle * 1800) / Math.PI) / 10;
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
