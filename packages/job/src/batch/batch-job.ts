import type { Cost, FinishPlan } from "@dryfit/joinery";
import type { JointProof } from "@dryfit/verify";
import type { Job, PlacedFinding } from "../job.ts";
import type { OutFile } from "../outfile.ts";

/** job.json of a batch: one job for the machine, and each case by itself. */
export interface BatchJob extends Omit<Job, "kind"> {
  readonly kind: "batch";
  readonly cases: readonly BatchJobCase[];
}

export interface BatchJobCase {
  readonly id: string;
  readonly design: { readonly file: string; readonly sha256: string };
  readonly parts: readonly string[];
  readonly sheets: readonly string[];
  /** Its share of the cutting by the area of its parts, min. */
  readonly minutes: number;
  readonly weightKg: number | null;
  /** Of its share of the sheets and of the machine; null where no price is known. */
  readonly cost: Cost | null;
  readonly finish: FinishPlan;
  readonly joints: readonly JointProof[];
  /** In which the parts go together. */
  readonly order: readonly string[];
}

export interface BatchMade {
  readonly outcome: "made" | "cannot" | "unreadable" | "disproved";
  /** The whole folder where `outcome` is "made", else nothing. */
  readonly files: readonly OutFile[];
  readonly job: BatchJob | null;
  readonly findings: readonly PlacedFinding[];
}
