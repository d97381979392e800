import {
  makeOrder,
  type OrderJob,
  type OrderMade,
  type OutFile,
  printedError,
  SHIPPED_SERVICES,
} from "@dryfit/job";
import colours from "picocolors";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { folderFor, readText, refuseTaken, writeFolder } from "./folder.ts";
import { writeNewFile } from "./new.ts";
import { progress } from "./progress.ts";
import { printOutcome } from "./report.ts";
import { shopFiles } from "./shop-files.ts";
import { VERSION } from "./version.ts";

interface OrderOptions {
  readonly service: string;
  readonly prices?: string;
  readonly changed?: string;
  readonly out?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit order`: what a cutting service needs, checked against what it can make, and only then written. */
export async function order(file: string, options: OrderOptions): Promise<ExitCode> {
  const given = await designFile(file);
  const service = await serviceFile(options.service);
  const folder = options.out ?? folderFor(file, "order");
  await refuseTaken(folder);
  const stages = progress(!options.json && !options.quiet);
  const { prices } = await shopFiles(options);
  const made = await makeOrder({ ...given, service, prices, version: VERSION }, stages.show);
  stages.clear();
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options, orderSummary);
  if (made.outcome === "cannot" && made.changed) await offer(file, made.changed, options);
  else if (made.outcome === "cannot" && options.changed !== undefined)
    process.stderr.write(
      `No change of the design is known that the service could make: ${options.changed} was not written.\n`,
    );
  return EXIT[made.outcome];
}

/** The design as far as it can be changed for the service: written where that was asked for, never over another file. */
async function offer(
  file: string,
  { text, left }: NonNullable<OrderMade["changed"]>,
  { changed, service }: OrderOptions,
): Promise<void> {
  if (changed === undefined) {
    const named = file.replace(/(\.ya?ml)?$/i, "-changed.yaml");
    process.stderr.write(`--changed ${named} writes the design, changed as far as is known.\n`);
    return;
  }
  await writeNewFile(changed, text);
  const still = left.map(({ message, wayOut = "" }) => `  ${message} ${wayOut}\n`).join("");
  process.stderr.write(
    left.length === 0
      ? `Wrote ${changed}, which the service can make: dryfit order ${changed} --service ${service}\n`
      : `Wrote ${changed}. Still for you to say there:\n${still}`,
  );
}

/** The service in a file, or one that comes with dryfit by its name. */
async function serviceFile(given: string): Promise<OutFile> {
  const shipped = Object.hasOwn(SHIPPED_SERVICES, given)
    ? SHIPPED_SERVICES[given as keyof typeof SHIPPED_SERVICES]
    : null;
  if (shipped) return shipped;
  try {
    return { file: given, text: await readText(given) };
  } catch (error) {
    if (!(error instanceof Failure)) throw error;
    const names = Object.keys(SHIPPED_SERVICES).join(", ");
    throw new Failure(
      `${error.message} --service takes ${names}, or a file of your own (dryfit new FILE --service laser).`,
    );
  }
}

export function orderSummary(job: OrderJob, folder: string): string {
  const { name, revision, service, parts, drawings, kerf, verification } = job;
  const widest = Math.max(verification.gouge, verification.uncut);
  return [
    `${colours.bold(name)}, revision ${revision}, for the ${service.name}: ${parts.length} parts in ${drawings.length} ${drawings.length === 1 ? "file" : "files"}.`,
    ...drawings.map(({ file, count, parts: ids }) => `  ${count} ×  ${file}  ${ids.join(", ")}`),
    kerf.allowance === "drawn"
      ? `  kerf ${kerf.width} mm drawn in; the service allows for nothing`
      : "  sizes nominal; the service allows for its kerf",
    colours.green(`Proved from the drawings: widest error ${printedError(widest)}, nothing touches.`),
    `In ${folder}: send all but keep/; order.txt is the letter, drawing.pdf for a person. keep/build-sheet.html is yours.`,
  ].join("\n");
}
