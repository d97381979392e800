import { rename, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { calibratedJob, timingOf } from "@dryfit/job";
import colours from "picocolors";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { readText } from "./folder.ts";
import { writeNew } from "./new-files.ts";
import { counts, report } from "./report.ts";

interface TimingOptions {
  readonly machine?: string;
  readonly out?: string;
  readonly measured?: readonly string[];
  readonly dryRun?: boolean;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit timing`: programs for a stopwatch; or what it said, into the machine file. */
export async function timing(options: TimingOptions): Promise<ExitCode> {
  return options.measured === undefined ? writePrograms(options) : calibrate(options.measured, options);
}

async function writePrograms({ machine, out, json, quiet }: TimingOptions): Promise<ExitCode> {
  const made = timingOf(machine === undefined ? null : { file: machine, text: await readText(machine) });
  const { outcome, findings } = made;
  const files = await writeNew(out ?? ".", made.programs);
  if (json) {
    const programs = made.programs.map(({ seconds }, i) => ({ file: files[i], seconds }));
    process.stdout.write(`${JSON.stringify({ outcome, programs, findings }, null, 2)}\n`);
    return EXIT[outcome];
  }
  if (outcome !== "made") process.stderr.write(`${report(findings)}\nWrote nothing: ${counts(findings)}.\n`);
  else if (!quiet)
    process.stdout.write(
      [
        ...made.programs.map(({ seconds }, i) => `${files[i]}  ${seconds.toFixed(1)} s expected`),
        "Run each with nothing on the bed, the spindle off and the override at 100 %, and take the time.",
        `Then: dryfit timing --machine ${machine ?? "machine.yaml"} --measured corners=1:23.5 steps=41.2`,
        "",
      ].join("\n"),
    );
  return EXIT[outcome];
}

async function calibrate(measured: readonly string[], options: TimingOptions): Promise<ExitCode> {
  const { machine } = options;
  if (machine === undefined)
    throw new Failure(
      "Name the file to change: --machine machine.yaml. The one that comes with dryfit stays as it is.",
    );
  const times = timesOf(measured);
  const done = calibratedJob({ file: machine, text: await readText(machine) }, times);
  const { outcome, before, after, findings, text } = done;
  const write = text !== null && options.dryRun !== true;
  if (write) await replace(machine, text);
  if (options.json) {
    const written = write ? machine : null;
    process.stdout.write(`${JSON.stringify({ outcome, written, before, after, findings }, null, 2)}\n`);
    return EXIT[outcome];
  }
  if (before === null || after === null)
    process.stderr.write(`${report(findings)}\nChanged nothing: ${counts(findings)}.\n`);
  else if (!options.quiet)
    process.stdout.write(
      [
        `${colours.bold(machine)}${write ? "" : " (not written: a trial run)"}`,
        `  timing.acceleration  ${before.acceleration} → ${after.acceleration}`,
        `  timing.blockSeconds  ${before.blockSeconds} → ${after.blockSeconds}`,
        "",
      ].join("\n"),
    );
  return EXIT[outcome];
}

/** "corners=1:23.5", "steps=41,2": minutes and seconds, or seconds alone. */
function timesOf(measured: readonly string[]): {
  readonly corners: number | null;
  readonly steps: number | null;
} {
  const times: { corners: number | null; steps: number | null } = { corners: null, steps: null };
  for (const text of measured) {
    const found = /^(corners|steps)=(?:(\d+):)?(\d+(?:[.,]\d+)?)s?$/.exec(text);
    const seconds = found === null ? 0 : 60 * Number(found[2] ?? 0) + Number(found[3]!.replace(",", "."));
    if (found === null || !(seconds > 0))
      throw new Failure(
        `--measured: found "${text}"; allowed: corners= and steps= with a time, such as corners=1:23.5 or steps=41.2.`,
      );
    times[found[1] as "corners" | "steps"] = seconds;
  }
  return times;
}

/** Beside the file first, so that a full disk costs no machine file. */
async function replace(file: string, text: string): Promise<void> {
  const fresh = join(dirname(file), `.${Date.now().toString(36)}-timing.yaml`);
  try {
    await writeFile(fresh, text);
    await rename(fresh, file);
  } catch (error) {
    throw new Failure(`Could not write ${file}: ${error instanceof Error ? error.message : String(error)}`);
  }
}
