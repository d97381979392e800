import { checkSawPlan, checkTemplates } from "@dryfit/bench";
import { checkBatch, checkJob, checkOrder, type OutFile } from "@dryfit/job";
import { printBatch } from "./batch.ts";
import { EXIT, type ExitCode } from "./failure.ts";
import { readFolder } from "./folder.ts";
import { printOrder } from "./order.ts";
import { progress } from "./progress.ts";
import { printOutcome } from "./report.ts";
import { printSaw } from "./saw.ts";
import { printTemplates } from "./templates.ts";

interface CheckOptions {
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit check`: proves a folder again, trusting only the files in it; its job.json says what kind it is. */
export async function check(folder: string, options: CheckOptions): Promise<ExitCode> {
  const stages = progress(!options.json && !options.quiet);
  const files = await readFolder(folder);
  const kind = kindOf(files);
  if (kind === "templates") {
    const checked = checkTemplates(files);
    printTemplates(checked, folder, options);
    return EXIT[checked.outcome];
  }
  if (kind === "saw-plan") {
    const checked = checkSawPlan(files);
    printSaw(checked, folder, options);
    return EXIT[checked.outcome];
  }
  if (kind === "order") {
    const checked = await checkOrder(files, stages.show);
    stages.clear();
    printOrder(checked, folder, options);
    return EXIT[checked.outcome];
  }
  if (kind === "batch") {
    const checked = await checkBatch(files, stages.show);
    stages.clear();
    printBatch(checked, folder, options);
    return EXIT[checked.outcome];
  }
  const checked = await checkJob(files, stages.show);
  stages.clear();
  printOutcome(checked, folder, options);
  return EXIT[checked.outcome];
}

/** What a folder's job.json says it is; anything that cannot be read is left to the check of a case. */
function kindOf(files: readonly OutFile[]): unknown {
  try {
    return JSON.parse(files.find(({ file }) => file === "job.json")?.text ?? "").kind;
  } catch {
    return null;
  }
}
