import type { BareSheet, OutFile } from "@dryfit/job";
import { useEffect, useState } from "preact/hooks";
import type { Answer, Ask } from "../worker/messages.ts";
import { startWorker } from "../worker/runner.ts";
import type { Judged } from "./judge-file.ts";

export type Judging =
  | { readonly at: "judging" }
  | { readonly at: "judged"; readonly judged: Judged }
  | { readonly at: "failed"; readonly why: string };

/** Reads and judges a file in a worker of its own; one that is not wanted any more is ended on the spot. */
export function useJudging(file: OutFile, sheet: BareSheet | null): Judging {
  const [judging, setJudging] = useState<Judging>({ at: "judging" });
  useEffect(() => {
    setJudging({ at: "judging" });
    const tooMuch = whyTooMuch(file);
    if (tooMuch) return setJudging({ at: "failed", why: tooMuch });
    const worker = startWorker();
    worker.onmessage = ({ data }: MessageEvent<Answer>) => {
      if (data.kind === "judged") setJudging({ at: "judged", judged: data.judged });
      else if (data.kind === "failed") setJudging({ at: "failed", why: data.why });
    };
    worker.onerror = (event) => {
      event.preventDefault();
      setJudging({
        at: "failed",
        why: `${file.file} could not be read: ${event.message || "the worker stopped"}.`,
      });
    };
    const ask: Ask = { run: 0, judge: file, sheet };
    worker.postMessage(ask);
    return () => worker.terminate();
  }, [file, sheet]);
  return judging;
}

/** A machine takes longer programs; this page would be slow to show them. */
function whyTooMuch({ file, text }: OutFile): string | null {
  let lines = 1;
  for (let at = text.indexOf("\n"); at !== -1; at = text.indexOf("\n", at + 1)) lines++;
  if (lines <= LINES_MAX) return null;
  const [has, most] = [lines, LINES_MAX].map((n) => n.toLocaleString("en-US"));
  return `${file} has ${has} lines; the board reads up to ${most}. Split it, or write its curves as arcs.`;
}

const LINES_MAX = 400_000;
