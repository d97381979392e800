import { readFileSync } from "node:fs";
import { parentPort } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
const { solve } = await import("./nest-solve.ts");
const { timeBudget } = await import("@dryfit/nest");

parentPort.on("message", ({ file, seconds, seed }) => {
  const instance = JSON.parse(readFileSync(file, "utf8"));
  const start = performance.now();
  const now = () => (performance.now() - start) / 1000;
  parentPort.postMessage(solve(instance, seed, timeBudget(seconds, now), now));
});
parentPort.postMessage("ready");
