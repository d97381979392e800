import { basename, dirname } from "node:path";
import { printedError, type Resumable, type Resumed, resumableIn, resumeJob } from "@dryfit/job";
import colours from "picocolors";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { readFolder } from "./folder.ts";
import { writeNew } from "./new-files.ts";
import { progress } from "./progress.ts";
import { counts, report } from "./report.ts";

interface ResumeOptions {
  readonly program?: string;
  readonly at?: string;
  readonly list?: boolean;
  readonly out?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** `dryfit resume`: the program that cuts what an interrupted one has left, proved; or a list of where that can be. */
export async function resume(folder: string, options: ResumeOptions): Promise<ExitCode> {
  const { program, at } = options;
  const files = await readFolder(folder);
  if (options.list) return list(resumableIn(files, program ?? null), options);
  if (program === undefined || at === undefined)
    throw new Failure(
      "Name the program and the block: --program sheet-1-a-1.nc --at 7.2. The blocks: dryfit resume with --list.",
    );
  const stages = progress(!options.json && !options.quiet);
  const resumed = resumeJob(files, { program, at: at.replace(/^block\s*/i, "") }, stages.show);
  stages.clear();
  const [file] =
    resumed.program === null
      ? [null]
      : await writeNew(dirname(options.out ?? "x"), [
          {
            ...resumed.program,
            file: options.out === undefined ? resumed.program.file : basename(options.out),
          },
        ]);
  tell(resumed, file ?? null, options);
  return EXIT[resumed.outcome];
}

function list({ outcome, programs, findings }: Resumable, options: ResumeOptions): ExitCode {
  if (options.json) {
    process.stdout.write(`${JSON.stringify({ outcome, programs, findings }, null, 2)}\n`);
    return EXIT[outcome];
  }
  const told = report(findings);
  if (told !== "") process.stderr.write(`${told}\n`);
  for (const { file, points } of programs) {
    const lines = points.map(({ block, line, title }) => {
      const indent = block.includes(".") ? "    " : "  ";
      return `${indent}${block.padEnd(6)} line ${String(line).padEnd(6)} ${title}`.trimEnd();
    });
    process.stdout.write(`${[colours.bold(file), ...lines].join("\n")}\n`);
  }
  return EXIT[outcome];
}

function tell(resumed: Resumed, file: string | null, options: ResumeOptions): void {
  const { outcome, findings, point, gouge, uncut } = resumed;
  if (options.json) {
    process.stdout.write(
      `${JSON.stringify({ outcome, program: file, point, gouge, uncut, findings }, null, 2)}\n`,
    );
    return;
  }
  const told = report(findings);
  if (told !== "") process.stderr.write(`${told}\n`);
  if (file === null || point === null) {
    process.stderr.write(`Wrote nothing: ${counts(findings)}.\n`);
    return;
  }
  if (options.quiet) return;
  const what = point.title === "" ? "" : ` (${point.title})`;
  process.stdout.write(
    [
      `${colours.bold(file)} begins at block ${point.block}${what}.`,
      colours.green(
        `Proved after all that comes before: widest error ${printedError(Math.max(gouge, uncut))}.`,
      ),
      "Before you start it: the sheet has not moved, and X, Y and Z zero are where they were.",
      "",
    ].join("\n"),
  );
}
