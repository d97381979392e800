import { basename, join } from "node:path";
import { makeJob } from "@dryfit/job";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode } from "./failure.ts";
import { writeFolder } from "./folder.ts";
import { progress } from "./progress.ts";
import { caseSummary, printOutcome } from "./report.ts";
import { type ShopOptions, shopFiles } from "./shop-files.ts";
import { VERSION } from "./version.ts";

interface CouponOptions extends ShopOptions {
  readonly out?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit coupon`: an offcut that tries the design's joint, made and proved like the case itself. */
export async function coupon(file: string, options: CouponOptions): Promise<ExitCode> {
  const given = await designFile(file);
  const shop = await shopFiles(options);
  const stages = progress(!options.json && !options.quiet);
  const made = await makeJob({ ...given, ...shop, version: VERSION }, stages.show, undefined, "coupon");
  stages.clear();
  const name = basename(file).replace(/\.ya?ml$/i, "");
  const folder = options.out ?? join("out", `${name}-coupon`);
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options, caseSummary);
  return EXIT[made.outcome];
}
