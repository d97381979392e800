import { checkSawPlan, checkTemplates } from "@dryfit/bench";
import { checkBatch, checkJob, checkOrder, type OutFile } from "@dryfit/job";
import { batchSummary } from "./batch.ts";
import { EXIT, type ExitCode } from "./failure.ts";
import { readFolder } from "./folder.ts";
import { orderSummary } from "./order.ts";
import { progress } from "./progress.ts";
import { caseSummary, printOutcome } from "./report.ts";
import { sawSummary } from "./saw.ts";
import { templatesSummary } from "./templates.ts";

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
    const checked = await checkTemplates(files);
    printOutcome(checked, folder, options, templatesSummary);
    return EXIT[checked.outcome];
  }
  if (kind === "saw-plan") {
    const checked = checkSawPlan(files);
    printOutcome(checked, folder, options, sawSummary);
    return EXIT[checked.outcome];
  }
  if (kind === "order") {
    const checked = await checkOrder(files, stages.show);
    stages.clear();
    printOutcome(checked, folder, options, orderSummary);
    return EXIT[checked.outcome];
  }
  if (kind === "batch") {
    const checked = await checkBatch(files, stages.show);
    stages.clear();
    printOutcome(checked, folder, options, batchSummary);
    return EXIT[checked.outcome];
  }
  const checked = await checkJob(files, stages.show);
  stages.clear();
  printOutcome(checked, folder, options, caseSummary);
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
