import { dirname, resolve } from "node:path";
import { type BatchInput, type BatchJob, designsOf, makeBatch, printedError } from "@dryfit/job";
import colours from "picocolors";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { folderFor, readText, refuseTaken, writeFolder } from "./folder.ts";
import { progress } from "./progress.ts";
import { printOutcome } from "./report.ts";
import { type ShopOptions, shopFiles } from "./shop-files.ts";
import { VERSION } from "./version.ts";

interface BatchOptions extends ShopOptions {
  readonly out?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit batch`: several cases nested, cut and proved as one job; the folder is written last. */
export async function batch(batchFile: string, options: BatchOptions): Promise<ExitCode> {
  const file = { file: batchFile, text: await readText(batchFile) };
  const wanted = designsOf(file);
  const names = wanted.filter((each) => typeof each === "string");
  const designs = await Promise.all(names.map((name) => designBeside(batchFile, name)));
  const shop = await shopFiles(options);
  const folder = options.out ?? folderFor(batchFile);
  await refuseTaken(folder);
  const stages = progress(!options.json && !options.quiet);
  const made = await makeBatch({ batch: file, designs, ...shop, version: VERSION }, stages.show);
  stages.clear();
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options, batchSummary);
  return EXIT[made.outcome];
}

async function designBeside(batchFile: string, name: string): Promise<BatchInput["designs"][number]> {
  try {
    const { design, drawings } = await designFile(resolve(dirname(batchFile), name));
    return { design: { file: name, text: design.text }, drawings };
  } catch (error) {
    if (error instanceof Failure) throw new Failure(`${batchFile} names ${name}. ${error.message}`);
    throw error;
  }
}

export function batchSummary(job: BatchJob, folder: string): string {
  const { name, revision, cases, sheets, verification } = job;
  const minutes = cases.reduce((sum, one) => sum + one.minutes, 0);
  const used = sheets.reduce((sum, sheet) => sum + sheet.yield, 0) / sheets.length;
  const widest = printedError(Math.max(verification.gouge, verification.uncut));
  return [
    `${colours.bold(name)}, revision ${revision}: ${cases.length} cases, ${job.parts.length} parts on ${sheets.length} sheets ` +
      `(${Math.round(used * 100)} % used), about ${Math.max(1, Math.round(minutes))} min of cutting.`,
    ...cases.map(
      ({ id, parts, sheets, minutes, weightKg }) =>
        `  ${id}  ${parts.length} parts on ${sheets.join(", ")}, ${Math.max(1, Math.round(minutes))} min` +
        (weightKg === null ? "" : `, ${weightKg.toFixed(1)} kg`),
    ),
    colours.green(`Proved: widest error ${widest}, nothing touches.`),
    `In ${folder}: cutting-sheet.html for the machine; cases/${cases[0]?.id}/build-sheet.html and its neighbours for the bench.`,
  ].join("\n");
}
