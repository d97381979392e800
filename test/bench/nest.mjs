// Lays out the nesting instances of a folder and prints how near the published bests they come.
//   npm run -s bench:nest -- --data DIR --seconds 10 --threads 2 --seed 1 --out DIR2 [--only name,name]
//   npm run -s bench:nest -- --cases --seconds 10         the samples, and five mixed cases as one job
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { Worker } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
const { costOf } = await import("./nest-solve.ts");
const { sharedLayout } = await import("./nest-peer.ts");
const { faultsOf } = await import("./nest-faults.ts");
const { report, summary } = await import("./nest-report.ts");

const { values } = parseArgs({
  options: {
    data: { type: "string", default: "test/data/nesting" },
    seconds: { type: "string", default: "10" },
    threads: { type: "string", default: "2" },
    seed: { type: "string", default: "1" },
    out: { type: "string", default: "out/nesting" },
    only: { type: "string", default: "" },
    cases: { type: "boolean", default: false },
  },
});
const [seconds, threads, seed] = [Number(values.seconds), Number(values.threads), Number(values.seed)];
if (!(seconds > 0) || !(threads >= 1) || !Number.isInteger(threads) || !Number.isInteger(seed)) {
  process.stderr.write("--seconds takes a number above 0, --threads and --seed whole numbers\n");
  process.exit(2);
}
if (values.cases) {
  const { nestCases } = await import("./nest-cases.ts");
  const now = () => performance.now() / 1000;
  for (const line of nestCases(seconds, now)) process.stdout.write(`${line}\n`);
  process.exit(0);
}
const only = values.only.split(",").filter(Boolean);
const files = readdirSync(values.data)
  .filter((name) => name.endsWith(".json"))
  .filter((name) => only.length === 0 || only.some((part) => name.startsWith(part)))
  .sort();
mkdirSync(values.out, { recursive: true });

const workers = await Promise.all(
  Array.from({ length: threads }, () => {
    const worker = new Worker(new URL("./nest-worker.mjs", import.meta.url));
    return new Promise((ready, failed) => {
      worker.once("message", () => ready(worker));
      worker.once("error", failed);
    });
  }),
);
const reports = [];
for (const name of files) {
  const file = join(values.data, name);
  const instance = JSON.parse(readFileSync(file, "utf8"));
  const faults = faultsOf(instance);
  if (faults.length > 0) {
    process.stderr.write(`${faults.join("\n")}\n`);
    process.exitCode = 1;
    continue;
  }
  const shared = sharedLayout(instance.items.reduce((sum, { demand }) => sum + demand, 0));
  const found = await Promise.all(
    workers.map((worker, k) => ask(worker, { file, seconds, seed: seed + 1000 * k, shared, own: k })),
  );
  const best = found.reduce((a, b) => (costOf(instance, b) < costOf(instance, a) ? b : a));
  const result = { instance: instance.name, seconds, threads, sheets: best.sheets };
  writeFileSync(join(values.out, name), `${JSON.stringify(result)}\n`);
  reports.push(report(instance, best));
  process.stdout.write(`${reports.at(-1).line}\n`);
}
process.stdout.write(`${summary(reports)}\n`);
await Promise.all(workers.map((worker) => worker.terminate()));

function ask(worker, task) {
  return new Promise((done, failed) => {
    const answered = (answer) => {
      worker.off("error", broken);
      done(answer);
    };
    const broken = (error) => {
      worker.off("message", answered);
      failed(error);
    };
    worker.once("message", answered);
    worker.once("error", broken);
    worker.postMessage(task);
  });
}
