import { Worker } from "node:worker_threads";
import type { JobInput, Made } from "@dryfit/job";
import { Failure } from "./failure.ts";

/** What the thread beside is given. */
export interface Beside {
  readonly input: JobInput;
  readonly seconds: number;
  /** One 32-bit number: 1 asks for the best so far. */
  readonly stop: SharedArrayBuffer;
}

/** Signals closer together than this are one press of a key. */
const ONE_PRESS_MS = 500;

/** What it tells. */
export type Told = { readonly stage: string } | { readonly made: Made };

/**
 * Makes a job with so many seconds for laying its parts. Ctrl-C ends the search and goes on with the best layout so
 * far; a second one gives up.
 */
export async function makeWithin(
  input: JobInput,
  seconds: number,
  onStage: (stage: string) => void,
): Promise<Made> {
  const stop = new SharedArrayBuffer(4);
  const workerData: Beside = { input, seconds, stop };
  const worker = new Worker(new URL("../bin/make-worker.mjs", import.meta.url), { workerData });
  let pressed: number | null = null;
  const press = (): void => {
    // A package manager in between passes one press on a second time.
    if (pressed !== null && performance.now() - pressed > ONE_PRESS_MS) void worker.terminate();
    if (pressed !== null) return;
    pressed = performance.now();
    Atomics.store(new Int32Array(stop), 0, 1);
    onStage("going on with the best layout so far (Ctrl-C again gives up)");
  };
  process.on("SIGINT", press);
  try {
    return await new Promise((done, failed) => {
      worker.on("message", (told: Told) => {
        if ("made" in told) done(told.made);
        else if (pressed === null || !told.stage.startsWith("laying")) onStage(told.stage);
      });
      worker.once("error", failed);
      worker.once("exit", () => failed(new Failure("Stopped: nothing was written.")));
    });
  } finally {
    process.off("SIGINT", press);
    await worker.terminate();
  }
}
