import type { Made, OutFile } from "@dryfit/job";

/** To the worker: make this design, with the shop that comes with dryfit. */
export interface Ask {
  readonly run: number;
  readonly design: OutFile;
}

/** From the worker. `run` is the number of the ask that it answers. */
export type Answer =
  | { readonly kind: "ready" }
  | { readonly kind: "stage"; readonly run: number; readonly stage: string }
  | { readonly kind: "made"; readonly run: number; readonly made: Made; readonly ms: number }
  | { readonly kind: "failed"; readonly run: number; readonly why: string };
