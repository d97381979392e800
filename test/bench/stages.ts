import { readFileSync } from "node:fs";
import { makeJob } from "@dryfit/job";

export const SAMPLES = ["tidepool", "skiff", "halyard"] as const;
const RUNS = 3;

/**
 * For each sample and stage of `make`: milliseconds of the first run (cold code) and the best of the next ones,
 * and the most memory the process held by its end. The checksum tells whether two benches did the same work.
 */
export async function benchStages(): Promise<readonly string[]> {
  const lines = ["make, ms per stage: first run, best of the next two; peak memory so far"];
  for (const name of SAMPLES) {
    const file = `samples/${name}.yaml`;
    const text = readFileSync(new URL(`../../${file}`, import.meta.url), "utf8");
    const runs: Awaited<ReturnType<typeof timed>>[] = [];
    for (let i = 0; i < RUNS; i++) runs.push(await timed(file, text));
    const [first, ...next] = runs;
    lines.push(`${name}  checksum ${first!.checksum}`);
    for (const stage of first!.stages.keys()) {
      const best = Math.min(...next.map((run) => run.stages.get(stage)!.ms));
      const { ms, memoryMb } = first!.stages.get(stage)!;
      lines.push(`  ${stage.padEnd(42)} ${figure(ms)} ${figure(best)} ${figure(memoryMb)} MB`);
    }
    const total = (run: (typeof runs)[number]) =>
      [...run.stages.values()].reduce((sum, { ms }) => sum + ms, 0);
    lines.push(`  ${"all".padEnd(42)} ${figure(total(first!))} ${figure(Math.min(...next.map(total)))}`);
  }
  return lines;
}

async function timed(file: string, text: string) {
  const stages = new Map<string, { ms: number; memoryMb: number }>();
  let stage = "";
  let since = performance.now();
  const turn = (next: string) => {
    const now = performance.now();
    const memoryMb = process.resourceUsage().maxRSS / 2 ** 10;
    if (stage !== "") stages.set(stage, { ms: now - since, memoryMb });
    [stage, since] = [next, now];
  };
  const made = await makeJob(
    { design: { file, text }, machine: null, cutters: null, version: "bench" },
    turn,
  );
  turn("");
  if (made.outcome !== "made") throw new Error(`${file} is ${made.outcome}`);
  return {
    stages,
    checksum: made
      .job!.files.map(({ sha256 }) => sha256.slice(0, 2))
      .join("")
      .slice(-12),
  };
}

function figure(value: number): string {
  return value.toFixed(0).padStart(6);
}
