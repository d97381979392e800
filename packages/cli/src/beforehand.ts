import { type Beforehand, spotsOf, walksOf } from "@dryfit/job";
import { EXIT, type ExitCode } from "./failure.ts";
import { readFolder } from "./folder.ts";
import { writeNew } from "./new-files.ts";
import { counts, report } from "./report.ts";

interface BeforehandOptions {
  readonly out?: string;
  readonly cutter?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit walk`: programs that show in the air where the sheet and its keep-outs are. */
export async function walk(folder: string, options: BeforehandOptions): Promise<ExitCode> {
  const walks = walksOf(await readFolder(folder));
  return leave(
    walks,
    options,
    "The spindle stays off and nothing is cut: watch the tip, and stop it if it leaves the edge.",
  );
}

/** `dryfit spots`: programs that mark where screws may hold the sheet down. */
export async function spots(folder: string, options: BeforehandOptions): Promise<ExitCode> {
  const spotted = spotsOf(await readFolder(folder), options.cutter ?? null);
  return leave(
    spotted,
    options,
    "Run before all others, drive the screws, and keep their heads below the wood's face.",
  );
}

async function leave(made: Beforehand, options: BeforehandOptions, note: string): Promise<ExitCode> {
  const { outcome, findings } = made;
  const files = outcome === "made" ? await writeNew(options.out ?? ".", made.programs) : [];
  if (options.json) {
    const programs = made.programs.map(({ minutes }, i) => ({ file: files[i], minutes }));
    process.stdout.write(`${JSON.stringify({ outcome, programs, findings }, null, 2)}\n`);
    return EXIT[outcome];
  }
  const told = report(findings);
  if (told !== "") process.stderr.write(`${told}\n`);
  if (outcome !== "made") process.stderr.write(`Wrote nothing: ${counts(findings)}.\n`);
  else if (!options.quiet) {
    const lines = made.programs.map(({ minutes }, i) => `${files[i]}  ${Math.ceil(minutes * 60)} s`);
    process.stdout.write(`${[...lines, note].join("\n")}\n`);
  }
  return EXIT[outcome];
}
