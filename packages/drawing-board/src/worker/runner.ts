import type { Made } from "@dryfit/job";
import { unpackedText } from "../unpack.ts";
import packedWorker from "./job-worker.ts?packed";
import type { Answer, Ask, DesignFiles } from "./messages.ts";

/** What becomes of a run. Only the newest run is ever told of. */
export interface Listener {
  readonly stage: (run: number, stage: string) => void;
  readonly made: (run: number, made: Made, ms: number) => void;
  /** The run came to no end: it threw, or two workers died of it. The next run starts with fresh ones. */
  readonly failed: (run: number, why: string) => void;
}

export interface Runner {
  /** Starts a run; whatever else is going on is told to stop. */
  readonly make: (run: number, files: DesignFiles) => void;
}

/** Two workers that share each run: a small computer has as many cores. */
interface Crew {
  readonly maker: Worker;
  readonly helper: Worker;
  /** Runs that it has been asked for and has not told the end of. */
  readonly open: Set<number>;
}

/**
 * Runs jobs, one after the other, in a crew of two workers. The maker hears between two stages that its run is stale;
 * a crew that keeps a newer run waiting for longer is sent away, and a fresh one is hired. A crew that lives on
 * is worth keeping: one that has made a job makes the next in half the time.
 */
export function createRunner(listener: Listener, start: () => Worker = startWorker): Runner {
  let newest: { readonly run: number; readonly files: DesignFiles; lost: number } | null = null;
  let crew: Crew | null = hire();
  let patience: ReturnType<typeof setTimeout> | undefined;

  function hire(): Crew {
    const hired: Crew = { maker: start(), helper: start(), open: new Set() };
    const { port1, port2 } = new MessageChannel();
    ask(hired.maker, { meet: port1, as: "maker" }, [port1]);
    ask(hired.helper, { meet: port2, as: "helper" }, [port2]);
    hired.maker.onmessage = ({ data }: MessageEvent<Answer>) => heard(hired, data);
    for (const worker of [hired.maker, hired.helper]) {
      worker.onerror = (event) => {
        event.preventDefault();
        lost(hired, event.message || "the worker stopped");
      };
      worker.onmessageerror = () => lost(hired, "the worker's answer could not be read");
    }
    return hired;
  }

  /** Nobody is hired in their place before there is work: workers that die at once would be hired for ever. */
  function dismiss(): void {
    clearTimeout(patience);
    crew?.maker.terminate();
    crew?.helper.terminate();
    crew = null;
  }

  function set(run: number, files: DesignFiles): void {
    crew ??= hire();
    crew.open.add(run);
    ask(crew.maker, { run, ...files });
  }

  function heard(from: Crew, answer: Answer): void {
    if (from !== crew || !from.open.has(answer.run)) return;
    const isNewest = answer.run === newest?.run;
    if (answer.kind === "stage") {
      if (!isNewest) return;
      clearTimeout(patience);
      listener.stage(answer.run, answer.stage);
      return;
    }
    from.open.delete(answer.run);
    if (!isNewest) return;
    clearTimeout(patience);
    if (answer.kind === "failed") listener.failed(answer.run, answer.why);
    if (answer.kind === "made") listener.made(answer.run, answer.made, answer.ms);
  }

  /** Once may be chance: the work is given to another crew. */
  function lost(by: Crew, why: string): void {
    if (by !== crew) return;
    const wasAtIt = newest !== null && by.open.has(newest.run);
    dismiss();
    if (!wasAtIt) return;
    newest!.lost++;
    if (newest!.lost > 1) listener.failed(newest!.run, why);
    else set(newest!.run, newest!.files);
  }

  return {
    make(run, files) {
      newest = { run, files, lost: 0 };
      const stale = crew ? [...crew.open] : [];
      for (const each of stale) ask(crew!.maker, { stop: each });
      const mustWait = stale.length > 0;
      set(run, files);
      clearTimeout(patience);
      if (!mustWait) return;
      patience = setTimeout(() => {
        dismiss();
        set(run, files);
      }, PATIENCE_MS);
    },
  };
}

/** A stage takes less on any usual design; a fresh crew needs longer for its first job than a stale stage takes. */
const PATIENCE_MS = 1500;

function ask(worker: Worker, message: Ask, carried: Transferable[] = []): void {
  worker.postMessage(message, carried);
}

/** Out of the page itself. A classic script: a module worker dies silently on a page that was opened from disk. */
export function startWorker(): Worker {
  workerUrl ??= URL.createObjectURL(new Blob([unpackedText(packedWorker)], { type: "text/javascript" }));
  return new Worker(workerUrl);
}

let workerUrl: string | null = null;
