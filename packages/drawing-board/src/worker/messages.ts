import type { BareSheet, Made, OutFile } from "@dryfit/job";
import type { Judged } from "../cut/judge-file.ts";

/** A design with the drawings that it names, as far as they are at hand. */
export interface DesignFiles {
  readonly design: OutFile;
  readonly drawings: readonly OutFile[];
}

/**
 * To a worker: work with the one at the port's other end, as the one that makes jobs or as the one that helps it; make
 * this design with the shop that comes with dryfit; read and judge a file from anywhere; or stop a run that nobody
 * waits for any more.
 */
export type Ask =
  | { readonly meet: MessagePort; readonly as: "maker" | "helper" }
  | ({ readonly run: number } & DesignFiles)
  | { readonly run: number; readonly judge: OutFile; readonly sheet: BareSheet | null }
  | { readonly stop: number };

/** From the worker. `run` is the number of the ask that it answers. */
export type Answer =
  | { readonly kind: "stage"; readonly run: number; readonly stage: string }
  | { readonly kind: "made"; readonly run: number; readonly made: Made; readonly ms: number }
  | { readonly kind: "judged"; readonly run: number; readonly judged: Judged }
  | { readonly kind: "stopped"; readonly run: number }
  | { readonly kind: "failed"; readonly run: number; readonly why: string };
