import { makeJob } from "@dryfit/job";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode } from "./failure.ts";
import { folderFor, refuseTaken, writeFolder } from "./folder.ts";
import { makeWithin } from "./make-within.ts";
import { progress } from "./progress.ts";
import { caseSummary, printOutcome } from "./report.ts";
import { type ShopOptions, shopFiles } from "./shop-files.ts";
import { VERSION } from "./version.ts";
import { amount, type WaitingOptions } from "./waiting.ts";

interface MakeOptions extends ShopOptions, WaitingOptions {
  readonly out?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit make`: reads, makes, proves, and only then writes the folder. */
export async function make(file: string, options: MakeOptions): Promise<ExitCode> {
  const given = await designFile(file);
  const shop = await shopFiles(options);
  const folder = options.out ?? folderFor(file);
  await refuseTaken(folder);
  const stages = progress(!options.json && !options.quiet);
  const input = { ...given, ...shop, version: VERSION };
  const seconds = amount("seconds", options.seconds, 3600);
  const steps = amount("steps", options.steps, 1e9);
  const made =
    seconds !== null
      ? await makeWithin(input, seconds, stages.show)
      : await makeJob(
          steps === null ? input : { ...input, nesting: { steps: Math.ceil(steps) } },
          stages.show,
        );
  stages.clear();
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options, caseSummary);
  if (seconds !== null && made.outcome === "made" && !options.json && !options.quiet)
    process.stdout.write(
      `Laid in ${made.steps} steps: --steps ${made.steps} makes the same again, anywhere.\n`,
    );
  return EXIT[made.outcome];
}
