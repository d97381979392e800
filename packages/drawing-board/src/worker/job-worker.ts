import { makeJob, VERSION } from "@dryfit/job";
import { judgeFile } from "../cut/judge-file.ts";
import { loadKernel } from "./kernel.ts";
import type { Answer, Ask } from "./messages.ts";

/** Makes and proves jobs, one after the other. Between two stages it listens whether anyone still waits. */
const kernel = loadKernel();
const stopped = new Set<number>();
const STOPPED = new Error("nobody waits for it any more");

self.onmessage = async ({ data }: MessageEvent<Ask>) => {
  if ("stop" in data) {
    stopped.add(data.stop);
    return;
  }
  const { run } = data;
  try {
    answer(
      "judge" in data
        ? { kind: "judged", run, judged: judgeFile(data.judge, data.sheet) }
        : await make(run, data.design),
    );
  } catch (error) {
    if (error === STOPPED) answer({ kind: "stopped", run });
    else answer({ kind: "failed", run, why: error instanceof Error ? error.message : String(error) });
  } finally {
    stopped.delete(run);
  }
};

kernel.then(() => answer({ kind: "ready" }));

async function make(run: number, design: { file: string; text: string }): Promise<Answer> {
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
  const input = { design, machine: null, cutters: null, version: VERSION };
  const made = await makeJob(input, onStage, await kernel);
  return { kind: "made", run, made, ms: performance.now() - started };
}

function answer(message: Answer): void {
  self.postMessage(message);
}
