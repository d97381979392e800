import type { Finding, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import type { Wood } from "./chip-load.ts";
import type { Cutter } from "./cutter.ts";
import { cuttingData } from "./feeds.ts";
import { travelHeight } from "./keep-outs.ts";
import type { Machine } from "./machine.ts";
import { checkTravel } from "./machine-checks.ts";
import type { Flip, Program } from "./program.ts";
import { SCREW_ROOM, type ScrewRoom, SPOT_DEPTH, spottingPlan } from "./screws.ts";
import type { Operation, SetupPlan } from "./toolpath.ts";
import { type ProgramJob, writeProgram } from "./write-program.ts";

/** All that the programs of a job say and need. */
export interface ProgramsJob {
  /** The case's name and revision, as every program's first line shows them. */
  readonly name: string;
  readonly parts: readonly Part[];
  readonly sheets: readonly Sheet[];
  /** How each sheet is turned over for setup B; absent: it is not. */
  readonly flips: Readonly<Record<string, Flip>>;
  readonly plans: readonly SetupPlan[];
  readonly machine: Machine;
  readonly cutters: readonly Cutter[];
  readonly wood: Wood;
}

/**
 * The programs of a job in the order of use: for each setup one per cutter, or one in all where the machine
 * changes cutters itself or pauses for it. Findings say what this machine cannot reach.
 */
export function writePrograms(job: ProgramsJob): {
  readonly programs: readonly Program[];
  readonly findings: readonly Finding[];
} {
  const runs = job.plans.flatMap((plan) => runsOf(plan, job.machine));
  const programs = runs.map((run, k) => writeProgram(programJob(job, run, nextSentence(run, runs[k + 1]))));
  return { programs, findings: programs.flatMap((program) => reached(program, job)) };
}

/** What goes into one program. */
interface Run {
  readonly plan: SetupPlan;
  readonly operations: readonly Operation[];
  readonly file: string;
  readonly which: string;
}

/** As long as one cutter stays, or all of a setup where the machine changes cutters itself or pauses for it. */
function runsOf(plan: SetupPlan, { controller }: Machine): readonly Run[] {
  const together = controller.cutterChange !== "separate-files";
  const runs: Operation[][] = [];
  for (const operation of plan.operations) {
    const last = runs.at(-1);
    if (last !== undefined && (together || last[0]?.cutter === operation.cutter)) last.push(operation);
    else runs.push([operation]);
  }
  return runs.map((operations, k) => ({
    plan,
    operations,
    file: fileOf(plan, `${k + 1}`),
    which: `${runs.length === 1 ? "the only program" : `program ${k + 1} of ${runs.length}`} of this setup`,
  }));
}

function fileOf({ sheet, setup }: SetupPlan, suffix: string): string {
  return `${sheet}-${setup.toLowerCase()}-${suffix}.nc`;
}

function nextSentence({ plan }: Run, next: Run | undefined): string {
  if (next === undefined || next.plan.sheet !== plan.sheet) return "The last program for this sheet.";
  return next.plan.setup === plan.setup
    ? `Next: ${next.file}.`
    : `Next: turn the sheet over, then ${next.file}.`;
}

/**
 * The program that marks where screws may hold a sheet down, to run before all others: it is drilled with `cutter`,
 * 2 mm deep, in waste. Null where there is no room for a screw; the finding says so.
 */
export function spottingProgram(
  job: ProgramsJob,
  sheetId: string,
  cutterId: string,
  room: ScrewRoom = SCREW_ROOM,
): { readonly program: Program | null; readonly findings: readonly Finding[] } {
  const [sheet, cutter] = [named(job.sheets, sheetId, "sheet"), named(job.cutters, cutterId, "cutter")];
  const data = cuttingData(cutter, job.machine, job.wood, { kind: "drilling", depth: SPOT_DEPTH });
  const { plan, findings } = spottingPlan(sheet, job.parts, { cutter, data, machine: job.machine, room });
  if (plan.operations.length === 0) return { program: null, findings };
  const file = fileOf(plan, "screws");
  const which = "places for the screws that hold it";
  const next = "Next: drive the screws, then run the programs that cut.";
  const program = writeProgram(programJob(job, { plan, operations: plan.operations, file, which }, next));
  return { program, findings: [...findings, ...reached(program, job)] };
}

function reached(program: Program, { machine, sheets }: ProgramsJob): readonly Finding[] {
  return checkTravel(program, machine, travelHeight(machine, named(sheets, program.sheet, "sheet")));
}

function programJob(job: ProgramsJob, { plan, operations, file, which }: Run, next: string): ProgramJob {
  const sheet = named(job.sheets, plan.sheet, "sheet");
  const onSheet = new Set(sheet.parts.map(({ part }) => part));
  const parts = job.parts.filter(({ id }) => onSheet.has(id));
  const thickness = parts[0]?.thickness;
  if (thickness === undefined) throw new RangeError(`sheet ${sheet.id} holds no part`);
  const cutters = [...new Set(operations.map(({ cutter }) => cutter))].map((id) =>
    named(job.cutters, id, "cutter"),
  );
  return {
    file,
    which,
    next,
    name: job.name,
    sheet,
    setup: plan.setup,
    flip: job.flips[sheet.id] ?? null,
    parts,
    thickness,
    operations,
    tools: cutters.map((cutter) => ({ cutter, rpm: speedOf(cutter, job) })),
    machine: job.machine,
  };
}

/** One speed for all cuts of a cutter. */
function speedOf(cutter: Cutter, { machine, wood }: ProgramsJob): number {
  return cuttingData(cutter, machine, wood, { kind: cutter.kind === "drill" ? "drilling" : "slot", depth: 0 })
    .rpm;
}

function named<T extends { readonly id: string }>(list: readonly T[], id: string, what: string): T {
  const found = list.find((item) => item.id === id);
  if (found === undefined) throw new RangeError(`no ${what} is called ${id}`);
  return found;
}
