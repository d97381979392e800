import type { Made, OutFile } from "@dryfit/job";
import { unpackedText } from "../unpack.ts";
import packedWorker from "./job-worker.ts?packed";
import type { Answer, Ask } from "./messages.ts";

/** What becomes of a run. Only the newest run is ever told of. */
export interface Listener {
  readonly stage: (run: number, stage: string) => void;
  readonly made: (run: number, made: Made, ms: number) => void;
  /** The run came to no end: it threw, or two workers died of it. The next run starts with a fresh one. */
  readonly failed: (run: number, why: string) => void;
}

export interface Runner {
  /** Starts a run at once; whatever else is going on is told to stop. */
  readonly make: (run: number, design: OutFile) => void;
}

interface Hand {
  readonly worker: Worker;
  /** What it works at; null: idle. */
  run: number | null;
}

/** As many as a small computer has cores. */
const MOST_HANDS = 2;
/** The number of a run that is made for practice alone. */
const PRACTICE = -1;

/**
 * Runs jobs in two workers. A worker hears between two stages only that its run is stale, and one that has made a
 * job makes the next in half the time: so the new run goes to the idle one, and the stale one ends where it is and
 * keeps its practice. Where both are at stale work, the older is ended on the spot.
 */
export function createRunner(listener: Listener, start: () => Worker = startWorker): Runner {
  let newest: { readonly run: number; readonly design: OutFile; lost: number } | null = null;
  let hands: readonly Hand[] = [];

  function hire(): Hand {
    const hand: Hand = { worker: start(), run: null };
    hand.worker.onmessage = ({ data }: MessageEvent<Answer>) => heard(hand, data);
    hand.worker.onerror = (event) => {
      event.preventDefault();
      lost(hand, event.message || "the worker stopped");
    };
    hand.worker.onmessageerror = () => lost(hand, "the worker's answer could not be read");
    hands = [...hands, hand];
    return hand;
  }

  function dismiss(hand: Hand): void {
    hand.worker.terminate();
    hands = hands.filter((each) => each !== hand);
  }

  function set(hand: Hand, run: number, design: OutFile): void {
    hand.run = run;
    ask(hand, { run, design });
  }

  function heard(hand: Hand, answer: Answer): void {
    if (answer.kind === "ready" || answer.run !== hand.run) return;
    const isNewest = answer.run === newest?.run;
    if (answer.kind === "stage") {
      if (isNewest) listener.stage(answer.run, answer.stage);
      return;
    }
    hand.run = null;
    if (!isNewest) return;
    if (answer.kind === "failed") listener.failed(answer.run, answer.why);
    if (answer.kind !== "made") return;
    listener.made(answer.run, answer.made, answer.ms);
    if (hands.length < MOST_HANDS) set(hire(), PRACTICE, newest!.design);
  }

  /** Once may be chance: the work is given to another. */
  function lost(hand: Hand, why: string): void {
    dismiss(hand);
    if (newest === null || hand.run !== newest.run) return;
    newest.lost++;
    if (newest.lost > 1) listener.failed(newest.run, why);
    else set(free(), newest.run, newest.design);
  }

  function free(): Hand {
    const idle = hands.find(({ run }) => run === null);
    if (idle) return idle;
    const [first] = [...hands].sort((a, b) => a.run! - b.run!);
    if (first && hands.length >= MOST_HANDS) dismiss(first);
    return hire();
  }

  hire();
  return {
    make(run, design) {
      newest = { run, design, lost: 0 };
      for (const hand of hands) if (hand.run !== null) ask(hand, { stop: hand.run });
      set(free(), run, design);
    },
  };
}

function ask({ worker }: Hand, message: Ask): void {
  worker.postMessage(message);
}

/** Out of the page itself. A classic script: a module worker dies silently on a page that was opened from disk. */
export function startWorker(): Worker {
  workerUrl ??= URL.createObjectURL(new Blob([unpackedText(packedWorker)], { type: "text/javascript" }));
  return new Worker(workerUrl);
}

let workerUrl: string | null = null;
