import { type Beside, makeJob, VERSION } from "@dryfit/job";
import type { SolidKernel } from "@dryfit/verify";
import { judgeFile } from "../cut/judge-file.ts";
import { besideOver, help } from "./beside-port.ts";
import { loadKernel } from "./kernel.ts";
import type { Answer, Ask, DesignFiles } from "./messages.ts";

/**
 * Makes and proves jobs one after the other, with a second worker beside it, or is that second worker. Between two
 * stages it listens whether anyone still waits.
 */
const stopped = new Set<number>();
const STOPPED = new Error("nobody waits for it any more");
let kernel: Promise<SolidKernel> | null = null;
let beside: Beside | undefined;
let before: Promise<void> = Promise.resolve();

self.onmessage = ({ data }: MessageEvent<Ask>) => {
  if ("meet" in data) {
    if (data.as === "helper") return help(data.meet);
    beside = besideOver(data.meet);
    kernel = loadKernel();
  } else if ("stop" in data) stopped.add(data.stop);
  else before = before.then(() => work(data));
};

async function work(data: Extract<Ask, { readonly run: number }>): Promise<void> {
  const { run } = data;
  try {
    answer(
      "judge" in data
        ? { kind: "judged", run, judged: judgeFile(data.judge, data.sheet) }
        : await make(run, data),
    );
  } catch (error) {
    if (error === STOPPED) answer({ kind: "stopped", run });
    else answer({ kind: "failed", run, why: error instanceof Error ? error.message : String(error) });
  } finally {
    stopped.delete(run);
  }
}

async function make(run: number, { design, drawings }: DesignFiles): Promise<Answer> {
  const started = performance.now();
  const onStage = (stage: string): Promise<void> => {
    answer({ kind: "stage", run, stage });
    const heard = new Promise<void>((go, stop) =>
      setTimeout(() => (stopped.has(run) ? stop(STOPPED) : go())),
    );
    // Not every stage is waited for.
    heard.catch(() => {});
    return heard;
  };
  const input = { design, drawings, machine: null, cutters: null, version: VERSION };
  kernel ??= loadKernel();
  const made = await makeJob(input, onStage, await kernel, "case", beside);
  return { kind: "made", run, made, ms: performance.now() - started };
}

function answer(message: Answer): void {
  self.postMessage(message);
}
