import type { Cost, FinishPlan } from "@dryfit/joinery";
import type { JointProof } from "@dryfit/verify";
import type { PlacedFinding, Verification } from "../job.ts";
import type { Service } from "./service.ts";
import type { ServiceCutting } from "./service-minutes.ts";

/**
 * job.json of a folder for a cutting service. Stable: fields are added, never changed.
 *
 * Units: mm. Files are named relative to the folder.
 */
export interface OrderJob {
  readonly name: string;
  readonly units: "mm";
  readonly kind: "order";
  readonly tool: { readonly name: "dryfit"; readonly version: string };
  readonly design: { readonly file: string; readonly sha256: string };
  readonly service: { readonly file: string; readonly sha256: string; readonly name: string };
  /** Stands on every paper and file of the folder. */
  readonly revision: string;
  readonly material: string;
  readonly thickness: { readonly min: number; readonly mean: number; readonly max: number };
  readonly kerf: Service["kerf"];
  /** What the service's machine has to do. */
  readonly cutting: ServiceCutting;
  readonly drawings: readonly OrderedFile[];
  readonly parts: readonly OrderedPartEntry[];
  readonly joints: readonly JointProof[];
  readonly verification: Verification;
  /** What the service itself asks for is not in it; null where no price is known. */
  readonly cost: Cost | null;
  readonly finish: FinishPlan;
  readonly weightKg: number | null;
  readonly findings: readonly PlacedFinding[];
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
}

export interface OrderedFile {
  readonly file: string;
  readonly count: number;
  readonly parts: readonly string[];
  /** Null where the file holds one part in its own frame. */
  readonly sheet: null | {
    readonly id: string;
    readonly size: readonly [number, number];
    readonly placed: readonly {
      readonly part: string;
      readonly turnDeg: number;
      readonly shift: readonly [number, number];
    }[];
  };
}

export interface OrderedPartEntry {
  readonly id: string;
  readonly panel: string;
  readonly upFace: string;
  /** Finished, and as drawn with its kerf. */
  readonly size: readonly [number, number];
  readonly drawn: readonly [number, number];
}
