import { type Job, type PlacedFinding, printedError } from "@dryfit/job";
import colours from "picocolors";

/** How a person reads the outcome: findings first, errors before warnings, then the verdict. */
export function report(findings: readonly PlacedFinding[]): string {
  const rank = { error: 0, warning: 1, note: 2 } as const;
  return [...findings]
    .sort((a, b) => rank[a.severity] - rank[b.severity])
    .map(findingLines)
    .join("\n");
}

function findingLines(finding: PlacedFinding): string {
  const paint = { error: colours.red, warning: colours.yellow, note: colours.dim }[finding.severity];
  const where = finding.at ? `${finding.at.file}:${finding.at.line}:${finding.at.column}` : finding.path;
  const head = `${paint(finding.severity)} ${colours.bold(where)} ${colours.dim(finding.code)}`;
  const body = finding.wayOut ? `${finding.message} ${finding.wayOut}` : finding.message;
  return `${head}\n  ${body}`;
}

/** "2 errors, 1 warning, 3 notes", leaving out what there is none of. */
export function counts(findings: readonly { readonly severity: PlacedFinding["severity"] }[]): string {
  return (["error", "warning", "note"] as const)
    .map((severity) => [severity, findings.filter((f) => f.severity === severity).length] as const)
    .filter(([, n]) => n > 0)
    .map(([severity, n]) => `${n} ${severity}${n === 1 ? "" : "s"}`)
    .join(", ");
}

/** What lies in the folder now, and what was proved of it. */
export function caseSummary(job: Job, folder: string): string {
  const programs = job.sheets.flatMap((sheet) => sheet.programs);
  const minutes = programs.reduce((sum, program) => sum + program.minutes, 0);
  const widest = Math.max(job.verification.gouge, job.verification.uncut);
  const lines = [
    `${colours.bold(job.name)}, revision ${job.revision}: ${plural(job.parts.length, "part")} on ` +
      `${plural(job.sheets.length, "sheet")}, ${plural(programs.length, "program")}, about ${Math.max(1, Math.round(minutes))} min of cutting.`,
    ...job.sheets.flatMap((sheet) => [
      `  ${sheet.id}  ${sheet.size[0]} × ${sheet.size[1]} × ${sheet.thickness} mm, ${Math.round(sheet.yield * 100)} % used` +
        (sheet.flip ? `, turned over about ${sheet.flip.axis} at ${sheet.flip.at}` : ""),
      ...sheet.programs.map(
        (program) =>
          `    ${program.file}  setup ${program.setup}, ${cutterWords(program)}, deepest Z ${program.deepest}, ${Math.max(1, Math.round(program.minutes))} min`,
      ),
    ]),
    job.verification.pass
      ? colours.green(`Proved: widest error ${printedError(widest)}, nothing touches.`)
      : colours.red("Not proved."),
    `In ${folder}: open ${job.kind === "coupon" ? "coupon.html" : "build-sheet.html"} first.`,
  ];
  return lines.join("\n");
}

function cutterWords(program: Job["sheets"][number]["programs"][number]): string {
  const all = program.cutter ? [program.cutter] : (program.cutters ?? []);
  return all.map((cutter) => `${cutter.kind} ${cutter.diameter} mm`).join(" then ");
}

function plural(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? "" : "s"}`;
}

/** What any of the commands that write a folder comes to. */
interface Outcome<Job> {
  readonly outcome: "made" | "cannot" | "unreadable" | "disproved";
  readonly findings: readonly PlacedFinding[];
  readonly job: Job | null;
}

export interface PrintOptions {
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/**
 * Prints what came of a job: findings above the verdict, so that no warning is buried.
 * With `json` one object on stdout, and nothing else.
 */
export function printOutcome<Job>(
  { outcome, findings, job }: Outcome<Job>,
  folder: string,
  options: PrintOptions,
  summaryOf: (job: Job, folder: string) => string,
): void {
  if (options.json) {
    const where = outcome === "made" ? folder : null;
    process.stdout.write(`${JSON.stringify({ outcome, folder: where, findings, job }, null, 2)}\n`);
    return;
  }
  const told = report(findings);
  if (told !== "") process.stderr.write(`${told}\n`);
  if (outcome !== "made" || job === null) process.stderr.write(`${WHY[outcome]}: ${counts(findings)}.\n`);
  else if (!options.quiet) process.stdout.write(`${summaryOf(job, folder)}\n`);
}

const WHY = {
  cannot: "Made nothing",
  unreadable: "Read nothing",
  disproved: "Not proved, so nothing was left in the folder",
  made: "Made",
} as const;
