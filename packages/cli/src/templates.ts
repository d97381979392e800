import { makeTemplates, type TemplatesJob } from "@dryfit/bench";
import colours from "picocolors";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { folderFor, readText, refuseTaken, writeFolder } from "./folder.ts";
import { printOutcome } from "./report.ts";
import { shopFiles } from "./shop-files.ts";
import { VERSION } from "./version.ts";
import { type WaitingOptions, waiting } from "./waiting.ts";

interface TemplatesOptions extends WaitingOptions {
  readonly tools: string;
  readonly prices?: string;
  readonly paper: string;
  readonly out?: string;
  readonly measuredX: string;
  readonly measuredY: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

const PAPERS = ["a4", "a3", "letter"] as const;

/** `dryfit templates`: reads, plans, draws, and only then writes the folder. */
export async function templates(file: string, options: TemplatesOptions): Promise<ExitCode> {
  const paper = paperNamed(options.paper);
  const { budget } = waiting(options);
  const folder = options.out ?? folderFor(file, "templates");
  await refuseTaken(folder);
  const made = await makeTemplates({
    ...(await designFile(file)),
    tools: { file: options.tools, text: await readText(options.tools) },
    prices: (await shopFiles(options)).prices,
    paper,
    measured: { x: measured("x", options.measuredX), y: measured("y", options.measuredY) },
    ...(budget ? { sawBudget: budget } : {}),
    version: VERSION,
  });
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options, templatesSummary);
  return EXIT[made.outcome];
}

export function paperNamed(text: string): (typeof PAPERS)[number] {
  const paper = PAPERS.find((name) => name === text.toLowerCase());
  if (!paper) throw new Failure(`There is no paper "${text}"; there are ${PAPERS.join(", ")}.`);
  return paper;
}

/** A figure from a ruler. What it may be is judged with the design; that it is a length, here. */
function measured(axis: "x" | "y", text: string): number {
  const value = Number(text.replace(",", "."));
  if (text.trim() !== "" && Number.isFinite(value) && value > 0) return value;
  throw new Failure(`--measured-${axis}: found "${text}"; allowed: a length in mm, such as 99.6.`);
}

export function templatesSummary(job: TemplatesJob, folder: string): string {
  const { name, revision, paper, templates, steps, work } = job;
  return [
    `${colours.bold(name)}, revision ${revision}: ${templates.length} templates, ${steps.length} steps.`,
    ...templates.map(
      ({ id, tiles, cutter, guide, offset, diagonal }) =>
        `  ${id}  ${tiles.length} × ${paper.toUpperCase()}, cutter ${cutter.id}, ` +
        `${guide.kind === "bush" ? guide.id : `bearing ${guide.diameter}`}, edge to cut ${offset} mm, diagonal ${diagonal.toFixed(1)} mm`,
    ),
    `In ${folder}: ${work === "coupon" ? "coupon.html says how to try it" : "build-sheet.html has it all"}; print settings.pdf first, and every template at actual size (100 %).`,
  ].join("\n");
}
