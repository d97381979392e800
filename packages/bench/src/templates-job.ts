import type { PaperName, Tile } from "@dryfit/drawing";
import type { Cost, Finding, FinishPlan, Place } from "@dryfit/joinery";
import type { JointProof } from "@dryfit/verify";
import type { BenchPlan } from "./plan.ts";
import type { Template } from "./template.ts";
import type { HandTools } from "./tools.ts";

/** A file by name and text; the name is relative to the folder. */
export interface TextFile {
  readonly file: string;
  readonly text: string;
}

export interface BenchFinding extends Finding {
  readonly at: Place | null;
}

/** What making a folder comes to. */
export interface BenchMade<Job> {
  readonly outcome: "made" | "cannot" | "unreadable" | "disproved";
  /** The whole folder where `outcome` is "made", else nothing. */
  readonly files: readonly TextFile[];
  /** What job.json holds; null unless made. */
  readonly job: Job | null;
  readonly findings: readonly BenchFinding[];
}

/** job.json of a folder of templates. Lengths in mm. */
export interface TemplatesJob {
  readonly name: string;
  readonly units: "mm";
  readonly kind: "templates";
  /** What the templates rout. */
  readonly work: "case" | "coupon";
  readonly tool: { readonly name: "dryfit"; readonly version: string };
  readonly design: { readonly file: string; readonly sha256: string };
  readonly tools: { readonly file: string; readonly sha256: string };
  readonly revision: string;
  readonly paper: PaperName;
  readonly measured: { readonly x: number; readonly y: number };
  readonly kerf: HandTools["laser"];
  readonly templates: readonly TemplateEntry[];
  readonly steps: BenchPlan["steps"];
  /** Of the search for the saw plan: as many give the same again. */
  readonly sawSteps: number;
  /** Of the parts as routed, stood up. */
  readonly joints: readonly JointProof[];
  /** Null where no price is known. */
  readonly cost: Cost | null;
  readonly finish: FinishPlan;
  readonly weightKg: number | null;
  readonly findings: readonly BenchFinding[];
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
}

interface TemplateEntry {
  readonly id: string;
  readonly kind: Template["kind"];
  readonly uses: Template["uses"];
  readonly cutter: { readonly id: string; readonly diameter: number };
  readonly guide: Template["fit"]["guide"];
  readonly offset: number;
  readonly depth: number;
  readonly finished: readonly [number, number];
  readonly size: readonly [number, number];
  readonly diagonal: number;
  readonly deviation: number;
  readonly pdf: string;
  readonly dxf: string;
  /** In page order: `page = shift + scale · template`. */
  readonly tiles: readonly Tile[];
}
