import type { Made, OutFile } from "@dryfit/job";
import { unpackedText } from "../unpack.ts";
import packedWorker from "./job-worker.ts?packed";
import type { Answer, Ask } from "./messages.ts";

/** What becomes of a run. Only the newest run is ever told of. */
export interface Listener {
  readonly stage: (run: number, stage: string) => void;
  readonly made: (run: number, made: Made, ms: number) => void;
  /** The run came to no end: the worker threw or died. The next run starts with a fresh one. */
  readonly failed: (run: number, why: string) => void;
}

export interface Runner {
  /** Starts a run; one that is still going is ended on the spot. */
  readonly make: (run: number, design: OutFile) => void;
}

/**
 * Runs jobs in a worker. A worker that computes hears nothing, so a stale run is ended with its worker; a second
 * one stands by, loaded, so that the next run need not wait for a start.
 */
export function createRunner(listener: Listener, start: () => Worker = startWorker): Runner {
  let standBy: Worker | null = start();
  let working: { readonly worker: Worker; readonly run: number; busy: boolean } | null = null;

  const take = (): Worker => {
    const worker = standBy ?? start();
    standBy = null;
    return worker;
  };
  const drop = (): void => {
    working?.worker.terminate();
    working = null;
  };

  return {
    make(run, design) {
      const idle = working && !working.busy ? working.worker : null;
      if (!idle) drop();
      const worker = idle ?? take();
      working = { worker, run, busy: true };
      worker.onmessage = ({ data }: MessageEvent<Answer>) => {
        if (data.kind === "ready" || data.run !== run || working?.run !== run) return;
        if (data.kind === "stage") return listener.stage(run, data.stage);
        working.busy = false;
        standBy ??= start();
        if (data.kind === "made") listener.made(run, data.made, data.ms);
        else if (data.kind === "failed") listener.failed(run, data.why);
      };
      worker.onerror = (event) => {
        event.preventDefault();
        if (working?.run !== run) return;
        drop();
        listener.failed(run, event.message || "the worker stopped");
      };
      worker.onmessageerror = () => {
        if (working?.run !== run) return;
        drop();
        listener.failed(run, "the worker's answer could not be read");
      };
      const ask: Ask = { run, design };
      worker.postMessage(ask);
    },
  };
}

/** Out of the page itself. A classic script: a module worker dies silently on a page that was opened from disk. */
export function startWorker(): Worker {
  workerUrl ??= URL.createObjectURL(new Blob([unpackedText(packedWorker)], { type: "text/javascript" }));
  return new Worker(workerUrl);
}

let workerUrl: string | null = null;
