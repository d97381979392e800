import { rename, rm, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { type FitAnswers, type Fitted, fitDesign, type OutFile } from "@dryfit/job";
import colours from "picocolors";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { readText } from "./folder.ts";
import { counts, report } from "./report.ts";

interface FitOptions {
  readonly coupon?: string;
  readonly width?: string;
  readonly depth?: string;
  readonly kerf?: string;
  readonly service?: string;
  readonly direction?: string;
  readonly machine?: string;
  readonly readings?: string;
  readonly dryRun?: boolean;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit fit`: the coupon's answers into the design file, shown before and after. */
export async function fit(designFile: string, options: FitOptions): Promise<ExitCode> {
  const coupon = options.coupon === undefined ? null : await designOfCoupon(options.coupon);
  const fitted = fitDesign({
    design: { file: designFile, text: await readText(designFile) },
    coupon: coupon === null ? null : { file: coupon, text: await readText(coupon) },
    service: await fileNamed(options.service),
    machine: await fileNamed(options.machine),
    answers: answersOf(options),
  });
  const write = fitted.text !== null && !options.dryRun;
  if (write)
    await replaceAll([
      [designFile, fitted.text],
      [options.service, fitted.serviceText],
      [options.machine, fitted.machineText],
    ]);
  if (options.json) {
    const { outcome, changes, follows, findings } = fitted;
    process.stdout.write(
      `${JSON.stringify({ outcome, written: write ? designFile : null, changes, follows, findings }, null, 2)}\n`,
    );
    return EXIT[fitted.outcome];
  }
  const told = report(fitted.findings);
  if (told !== "") process.stderr.write(`${told}\n`);
  if (fitted.text === null) process.stderr.write(`Changed nothing: ${counts(fitted.findings)}.\n`);
  else if (!options.quiet) process.stdout.write(`${summary(fitted, designFile, write)}\n`);
  return EXIT[fitted.outcome];
}

/** The letters of no other folder mean anything. */
async function designOfCoupon(folder: string): Promise<string> {
  const manifest = join(folder, "job.json");
  const text = await readText(manifest);
  let job: { readonly kind?: unknown; readonly work?: unknown };
  try {
    job = JSON.parse(text);
  } catch {
    throw new Failure(`${manifest} is no job.json that dryfit wrote. Name the folder of a coupon.`);
  }
  if (job.kind !== "coupon" && job.work !== "coupon")
    throw new Failure(
      `${folder} holds ${job.kind === undefined ? "a case" : `what "${job.kind}" made`}, no coupon. Name the folder that dryfit coupon wrote.`,
    );
  return join(folder, "design.yaml");
}

async function fileNamed(file: string | undefined): Promise<OutFile | null> {
  return file === undefined ? null : { file, text: await readText(file) };
}

function answersOf({ width, depth, kerf, direction, readings }: FitOptions): FitAnswers {
  return {
    ...(width === undefined ? {} : { width }),
    ...(depth === undefined ? {} : { depth }),
    ...(kerf === undefined ? {} : { kerf }),
    ...(direction === undefined ? {} : { direction }),
    ...(readings === undefined ? {} : { readings: figures(readings) }),
  };
}

/** "14.7,14.8 14.85", or with decimal commas "14,7 14,8": a comma parts readings only where a point stands in them. */
function figures(text: string): readonly number[] {
  const words = text.split(text.includes(".") ? /[\s,;]+/ : /[\s;]+|,\s+/).filter((word) => word !== "");
  const values = words.map((word) => Number(word.replace(",", ".")));
  if (values.length > 0 && values.every((value) => Number.isFinite(value) && value > 0)) return values;
  throw new Failure(`--readings: found "${text}"; allowed: lengths in mm, such as "14.7, 14.8, 14.8".`);
}

/** All or none: each is written beside its file first, so that a full disk costs none of them. */
async function replaceAll(
  files: readonly (readonly [file: string | undefined, text: string | null])[],
): Promise<void> {
  const fresh: { readonly file: string; readonly beside: string }[] = [];
  let at = "";
  try {
    for (const [file, text] of files) {
      if (file === undefined || text === null) continue;
      at = file;
      const beside = join(dirname(file), `.${Date.now().toString(36)}-${fresh.length}-fit.yaml`);
      fresh.push({ file, beside });
      await writeFile(beside, text);
    }
    for (const { file, beside } of fresh) {
      at = file;
      await rename(beside, file);
    }
  } catch (error) {
    await Promise.all(fresh.map(({ beside }) => rm(beside, { force: true })));
    throw new Failure(`Could not write ${at}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

function summary({ changes, follows }: Fitted, file: string, written: boolean): string {
  return [
    `${colours.bold(file)}${written ? "" : " (not written: a trial run)"}`,
    ...changes.map(
      (change) =>
        `  ${change.file === file ? "" : `${change.file}: `}${change.path}  ${change.before} → ${change.after}`,
    ),
    follows.length === 0 ? "Nothing else follows." : "What follows, mm:",
    ...follows.map(
      ({ before, after }) => `  ${after.what}  ${figure(before.value)} → ${figure(after.value)}`,
    ),
  ].join("\n");
}

function figure(value: number): string {
  return String(Number(value.toFixed(3)));
}
