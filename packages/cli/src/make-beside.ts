import { parentPort, workerData } from "node:worker_threads";
import { type JobInput, makeJob } from "@dryfit/job";
import { timeBudget } from "@dryfit/nest";
import type { Beside, Told } from "./make-within.ts";

// Runs in a thread of its own: the main one keeps hearing the keyboard and says by `stop` that it is enough.
const { input, seconds, stop } = workerData as Beside;
const within = timeBudget(
  seconds,
  () => performance.now() / 1000,
  () => Atomics.load(new Int32Array(stop), 0) === 1,
);
const tell = (told: Told): void => parentPort!.postMessage(told);
const asked: JobInput = { ...input, nesting: { within } };
const made = await makeJob(asked, (stage) => tell({ stage }));
tell({ made: { ...made, shown: null } });
