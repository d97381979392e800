import { programUntil, type ResumePoint, resumedProgram, resumePoints } from "@dryfit/gcode";
import { CUT_MM } from "@dryfit/geometry";
import { proveCuts } from "@dryfit/verify";
import { nameError } from "./air-programs.ts";
import type { PlacedFinding } from "./job.ts";
import { changedIn } from "./manifest.ts";
import { type Opened, openFolder } from "./opened.ts";
import type { OutFile } from "./outfile.ts";
import { toProve } from "./proving.ts";
import { hasErrors, type OnStage } from "./road.ts";

/** Where the programs of a folder can be taken up. */
export interface Resumable {
  readonly outcome: "made" | "cannot" | "unreadable";
  readonly programs: readonly { readonly file: string; readonly points: readonly ResumePoint[] }[];
  readonly findings: readonly PlacedFinding[];
}

export interface Resumed {
  readonly outcome: "made" | "cannot" | "unreadable" | "disproved";
  /** The program that cuts the rest, and a name for it; null unless made. */
  readonly program: OutFile | null;
  /** Where it begins; null unless made. */
  readonly point: ResumePoint | null;
  /** Widest error of the parts when it is done after what came before, mm. */
  readonly gouge: number;
  readonly uncut: number;
  readonly findings: readonly PlacedFinding[];
}

/** The places where a folder's programs, or the one named, can be taken up again. */
export function resumableIn(folder: readonly OutFile[], program: string | null): Resumable {
  const opened = openFolder(folder);
  if ("outcome" in opened) return { ...opened, programs: [] };
  const { programs } = opened.road;
  const chosen = program === null ? programs : programs.filter(({ file }) => isNamed(file, program));
  if (chosen.length === 0)
    return { outcome: "unreadable", programs: [], findings: [noSuchProgram(opened, program ?? "")] };
  const changed = changedIn(opened.manifest, folder).filter((finding) =>
    chosen.some(({ file }) => finding.path === `gcode/${file}`),
  );
  return {
    outcome: "made",
    programs: chosen.map(({ file, text }) => ({ file, points: resumePoints(text) })),
    findings: changed,
  };
}

/**
 * The program that takes `program` up again at `at` and cuts what is left, proved together with all that was cut
 * before and with what the other programs cut: no part is cut wrong, and none is left uncut.
 *
 * Refused where the folder was not proved or the program is not the one that was: its blocks would say nothing.
 */
export function resumeJob(
  folder: readonly OutFile[],
  { program, at }: { readonly program: string; readonly at: string },
  onStage: OnStage = () => {},
): Resumed {
  onStage("reading the folder");
  const opened = openFolder(folder);
  if ("outcome" in opened) return refused(opened.outcome, opened.findings);
  const { manifest, road, shop } = opened;
  const index = road.programs.findIndex(({ file }) => isNamed(file, program));
  const whole = road.programs[index];
  if (whole === undefined) return refused("unreadable", [noSuchProgram(opened, program)]);
  const changed = changedIn(manifest, folder);
  if (changed.some(({ path }) => path === `gcode/${whole.file}`))
    return refused("cannot", [isAnother(whole.file)]);
  if (!manifest.verification.pass) return refused("cannot", [NOT_PROVED]);
  const text = resumedProgram(whole.text, at);
  const until = programUntil(whole.text, at);
  const point = resumePoints(whole.text).find(({ block }) => block === at);
  if (text === null || until === null || point === undefined)
    return refused("unreadable", [noSuchBlock(whole.file, at, resumePoints(whole.text))]);

  onStage("proving what is left");
  const file = whole.file.replace(/\.nc$/, `-from-${at.replace(".", "-")}.nc`);
  const programs = road.programs.flatMap((one, i) =>
    i === index
      ? [
          { ...one, text: until },
          { ...one, file, text },
        ]
      : [one],
  );
  const proof = proveCuts(toProve({ ...road, programs }, shop));
  const gouge = Math.max(0, ...proof.perPart.map((part) => part.gouge));
  const uncut = Math.max(0, ...proof.perPart.map((part) => part.uncut));
  const findings = [...changed, ...proof.findings.map(shop.placed)];
  if (hasErrors(findings) || Math.max(gouge, uncut) > CUT_MM) return refused("disproved", findings);
  return { outcome: "made", program: { file, text }, point, gouge, uncut, findings };
}

/** A program may be named as in job.json, by its file alone, or by the way to it. */
function isNamed(file: string, asked: string): boolean {
  return asked.replaceAll("\\", "/").split("/").at(-1) === file;
}

function refused(outcome: Exclude<Resumed["outcome"], "made">, findings: readonly PlacedFinding[]): Resumed {
  return { outcome, program: null, point: null, gouge: 0, uncut: 0, findings };
}

function noSuchProgram({ road }: Opened, asked: string): PlacedFinding {
  const names = road.programs.map(({ file }) => file).join(", ");
  return nameError(
    "no_such_program",
    asked,
    `The folder holds no program ${asked}.`,
    `Its programs: ${names}.`,
  );
}

function noSuchBlock(file: string, asked: string, points: readonly ResumePoint[]): PlacedFinding {
  const last = points.findLast(({ block }) => !block.includes("."))?.block ?? "none";
  const passes = points.filter(({ block }) => block.startsWith(`${asked.split(".")[0]}.`)).length;
  const has = passes > 0 ? `; block ${asked.split(".")[0]} has ${passes} passes` : "";
  return nameError(
    "no_such_block",
    file,
    `${file} has no block ${asked}: it has blocks 1 to ${last}${has}.`,
    "See dryfit resume with --list for all of them.",
  );
}

function isAnother(file: string): PlacedFinding {
  return nameError(
    "program_changed",
    file,
    `${file} is not the program that was proved: its text differs from what job.json holds.`,
    "Take up the program as it was made, or make the folder again.",
  );
}

const NOT_PROVED: PlacedFinding = nameError(
  "not_proved",
  "job.json",
  "The folder was not proved when it was made.",
  "Make the folder again with dryfit make.",
);
