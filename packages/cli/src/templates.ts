import { basename, join } from "node:path";
import { makeTemplates, type TemplatesJob, type TemplatesMade } from "@dryfit/bench";
import colours from "picocolors";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { readText, writeFolder } from "./folder.ts";
import { counts, report } from "./report.ts";
import { VERSION } from "./version.ts";
import { type WaitingOptions, waiting } from "./waiting.ts";

interface TemplatesOptions extends WaitingOptions {
  readonly tools: string;
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
  const paper = PAPERS.find((name) => name === options.paper.toLowerCase());
  if (!paper) throw new Failure(`There is no paper "${options.paper}"; there are ${PAPERS.join(", ")}.`);
  const { budget } = waiting(options);
  const made = makeTemplates({
    ...(await designFile(file)),
    tools: { file: options.tools, text: await readText(options.tools) },
    paper,
    measured: { x: measured("x", options.measuredX), y: measured("y", options.measuredY) },
    ...(budget ? { sawBudget: budget } : {}),
    version: VERSION,
  });
  const name = basename(file).replace(/\.ya?ml$/i, "");
  const folder = options.out ?? join("out", `${name}-templates`);
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printTemplates(made, folder, options);
  return EXIT[made.outcome];
}

/** Findings above the verdict; with `json` one object on stdout, and nothing else. */
export function printTemplates(
  made: TemplatesMade,
  folder: string,
  options: { readonly json?: boolean; readonly quiet?: boolean },
): void {
  if (options.json) {
    const { outcome, findings, job } = made;
    const where = outcome === "made" ? folder : null;
    process.stdout.write(`${JSON.stringify({ outcome, folder: where, findings, job }, null, 2)}\n`);
    return;
  }
  const told = report(made.findings);
  if (told !== "") process.stderr.write(`${told}\n`);
  if (made.job && !options.quiet) process.stdout.write(`${summary(made.job, folder)}\n`);
  if (!made.job) process.stderr.write(`Made nothing: ${counts(made.findings)}.\n`);
}

/** A figure from a ruler. What it may be is judged with the design; that it is a length, here. */
function measured(axis: "x" | "y", text: string): number {
  const value = Number(text.replace(",", "."));
  if (text.trim() !== "" && Number.isFinite(value) && value > 0) return value;
  throw new Failure(`--measured-${axis}: found "${text}"; allowed: a length in mm, such as 99.6.`);
}

function summary(job: TemplatesJob, folder: string): string {
  const { name, revision, paper, templates, steps } = job;
  return [
    `${colours.bold(name)}, revision ${revision}: ${templates.length} templates, ${steps.length} steps.`,
    ...templates.map(
      ({ id, tiles, cutter, guide, offset, diagonal }) =>
        `  ${id}  ${tiles.length} × ${paper.toUpperCase()}, cutter ${cutter.id}, ` +
        `${guide.kind === "bush" ? guide.id : `bearing ${guide.diameter}`}, edge to cut ${offset} mm, diagonal ${diagonal.toFixed(1)} mm`,
    ),
    `In ${folder}: print settings.pdf first, and every template at actual size (100 %).`,
  ].join("\n");
}
