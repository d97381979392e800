import { makeTemplates } from "@dryfit/bench";
import { makeJob } from "@dryfit/job";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode } from "./failure.ts";
import { folderFor, readText, refuseTaken, writeFolder } from "./folder.ts";
import { progress } from "./progress.ts";
import { caseSummary, printOutcome } from "./report.ts";
import { type ShopOptions, shopFiles } from "./shop-files.ts";
import { paperNamed, templatesSummary } from "./templates.ts";
import { VERSION } from "./version.ts";

interface CouponOptions extends ShopOptions {
  readonly tools?: string;
  readonly paper: string;
  readonly out?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit coupon`: an offcut that tries the design's joint, made and proved like the case itself. */
export async function coupon(file: string, options: CouponOptions): Promise<ExitCode> {
  if (options.tools !== undefined) return couponByHand(file, options, options.tools);
  const given = await designFile(file);
  const shop = await shopFiles(options);
  const folder = options.out ?? folderFor(file, "coupon");
  await refuseTaken(folder);
  const stages = progress(!options.json && !options.quiet);
  const made = await makeJob({ ...given, ...shop, version: VERSION }, stages.show, undefined, "coupon");
  stages.clear();
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options, caseSummary);
  return EXIT[made.outcome];
}

/** The same as routing templates, for whoever holds the router by its handles. */
async function couponByHand(file: string, options: CouponOptions, tools: string): Promise<ExitCode> {
  const folder = options.out ?? folderFor(file, "coupon");
  await refuseTaken(folder);
  const made = await makeTemplates({
    ...(await designFile(file)),
    tools: { file: tools, text: await readText(tools) },
    work: "coupon",
    paper: paperNamed(options.paper),
    measured: { x: 100, y: 100 },
    version: VERSION,
  });
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options, templatesSummary);
  return EXIT[made.outcome];
}
