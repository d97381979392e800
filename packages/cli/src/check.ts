import { checkJob } from "@dryfit/job";
import { EXIT, type ExitCode } from "./failure.ts";
import { readFolder } from "./folder.ts";
import { progress } from "./progress.ts";
import { printOutcome } from "./report.ts";

/** `dryfit check`: proves a folder again, trusting only the files in it. */
export async function check(
  folder: string,
  options: { readonly json?: boolean; readonly quiet?: boolean },
): Promise<ExitCode> {
  const stages = progress(!options.json && !options.quiet);
  const checked = await checkJob(await readFolder(folder), stages.show);
  stages.clear();
  printOutcome(checked, folder, options);
  return EXIT[checked.outcome];
}
