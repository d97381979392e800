import { makeSawPlan, type SawPlanJob } from "@dryfit/bench";
import colours from "picocolors";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { folderFor, refuseTaken, writeFolder } from "./folder.ts";
import { printOutcome } from "./report.ts";
import { VERSION } from "./version.ts";
import { type WaitingOptions, waiting } from "./waiting.ts";

interface SawOptions extends WaitingOptions {
  readonly out?: string;
  readonly kerf: string;
  readonly trim: string;
  readonly stages: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit saw`: reads, plans, draws, and only then writes the folder. */
export async function saw(file: string, options: SawOptions): Promise<ExitCode> {
  const rules = {
    kerf: within("kerf", options.kerf, 0, 10, "the blade's cut in mm, such as 2.4"),
    trim: within("trim", options.trim, 0, 100, "mm off every edge, blade included, such as 10"),
    stages: whole("stages", options.stages, 2, 4, "2, 3 or 4: how often the direction may change"),
  };
  const folder = options.out ?? folderFor(file, "saw");
  await refuseTaken(folder);
  const made = makeSawPlan({
    ...(await designFile(file)),
    rules,
    ...waiting(options),
    version: VERSION,
  });
  if (made.outcome === "made") await writeFolder(folder, made.files);
  printOutcome(made, folder, options, sawSummary);
  return EXIT[made.outcome];
}

function within(flag: string, text: string, least: number, most: number, allowed: string): number {
  const value = Number(text.replace(",", "."));
  if (text.trim() !== "" && value >= least && value <= most) return value;
  throw new Failure(`--${flag}: found "${text}"; allowed: ${allowed}, from ${least} to ${most}.`);
}

function whole(flag: string, text: string, least: number, most: number, allowed: string): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new Failure(`--${flag}: found "${text}"; allowed: ${allowed}.`);
}

export function sawSummary({ name, revision, sheets }: SawPlanJob, folder: string): string {
  return [
    `${colours.bold(name)}, revision ${revision}: saw plan for ${sheets.length} ${sheets.length === 1 ? "sheet" : "sheets"}.`,
    ...sheets.map(
      ({ id, size, blanks, cuts, rests, yield: used }) =>
        `  ${id}  ${size[0]} × ${size[1]} mm, ${blanks.length} blanks, ${cuts.length} cuts, ${Math.round(used * 100)} % used` +
        (rests[0] ? `, largest rest ${Math.round(rests[0].w)} × ${Math.round(rests[0].h)} mm` : ""),
    ),
    `In ${folder}: open saw-plan.html first.`,
  ].join("\n");
}
