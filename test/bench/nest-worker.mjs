import { readFileSync } from "node:fs";
import { parentPort } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
const { solve } = await import("./nest-solve.ts");
const { peerOver } = await import("./nest-peer.ts");
const { timeBudget } = await import("@dryfit/nest");

parentPort.on("message", ({ file, seconds, seed, shared, own }) => {
  const instance = JSON.parse(readFileSync(file, "utf8"));
  const start = performance.now();
  const now = () => (performance.now() - start) / 1000;
  parentPort.postMessage(solve(instance, seed, timeBudget(seconds, now), now, peerOver(shared, own)));
});
parentPort.postMessage("ready");
