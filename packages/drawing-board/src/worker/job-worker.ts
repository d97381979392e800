import { makeJob, VERSION } from "@dryfit/job";
import { judgeFile } from "../cut/judge-file.ts";
import { loadKernel } from "./kernel.ts";
import type { Answer, Ask } from "./messages.ts";

/** Makes and proves jobs, one after the other. Whoever needs no answer any more ends the whole worker. */
const kernel = loadKernel();

self.onmessage = async ({ data }: MessageEvent<Ask>) => {
  const { run } = data;
  const started = performance.now();
  try {
    if ("judge" in data) return answer({ kind: "judged", run, judged: judgeFile(data.judge, data.sheet) });
    const input = { design: data.design, machine: null, cutters: null, version: VERSION };
    const made = await makeJob(input, (stage) => answer({ kind: "stage", run, stage }), await kernel);
    answer({ kind: "made", run, made, ms: performance.now() - started });
  } catch (error) {
    answer({ kind: "failed", run, why: error instanceof Error ? error.message : String(error) });
  }
};

kernel.then(() => answer({ kind: "ready" }));

function answer(message: Answer): void {
  self.postMessage(message);
}
