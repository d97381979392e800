import { basename, join } from "node:path";
import { makeJob } from "@dryfit/job";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { writeFolder } from "./folder.ts";
import { makeWithin } from "./make-within.ts";
import { progress } from "./progress.ts";
import { printOutcome } from "./report.ts";
import { type ShopOptions, shopFiles } from "./shop-files.ts";
import { VERSION } from "./version.ts";

interface MakeOptions extends ShopOptions {
  readonly out?: string;
  readonly seconds?: string;
  readonly steps?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit make`: reads, makes, proves, and only then writes the folder. */
export async function make(file: string, options: MakeOptions): Promise<ExitCode> {
  const given = await designFile(file);
  const shop = await shopFiles(options);
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
  const folder = options.out ?? join("out", basename(file).replace(/\.ya?ml$/i, ""));
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options);
  if (seconds !== null && made.outcome === "made" && !options.json && !options.quiet)
    process.stdout.write(
      `Laid in ${made.steps} steps: --steps ${made.steps} makes the same again, anywhere.\n`,
    );
  return EXIT[made.outcome];
}

function amount(flag: string, text: string | undefined, most: number): number | null {
  if (text === undefined) return null;
  const value = Number(text.replace(",", "."));
  if (text.trim() !== "" && value > 0 && value <= most) return value;
  throw new Failure(`--${flag}: found "${text}"; allowed: a number above 0, at most ${most}.`);
}
