import { once } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import type { Run } from "./check/on-machine.ts";
import { deepest } from "./cut/deepest.ts";
import { isShaped } from "./cut/edge-profile.ts";
import { type Stroke, strokesOf } from "./cut/stroke.ts";
import { mountedCutters } from "./mounted-cutters.ts";
import { type ReadProgram, readProgram } from "./program/read-program.ts";
import type { CutterFacts, JobToProve, ProgramFile } from "./proof.ts";
import type { Placed } from "./prove-part.ts";

/** A program and what its text says. */
export interface Written {
  readonly program: ProgramFile;
  readonly read: ReadProgram;
}

/** All that is cut on one sheet. */
export interface SheetCuts {
  readonly sheet: Sheet;
  readonly placed: readonly Placed[];
  readonly programs: readonly Written[];
  readonly files: readonly ProgramFile[];
  readonly flip: JobToProve["flips"][string] | undefined;
  readonly mounted: readonly ReturnType<typeof mountedCutters>[];
  readonly runs: readonly Run[];
  readonly stroked: readonly {
    readonly run: Run;
    readonly strokes: readonly Stroke[];
    readonly shaped: readonly Stroke[];
  }[];
  /** Of cylindrical cutters, but for what deeper ones take too. */
  readonly strokes: readonly Stroke[];
  /** Of shaped cutters. */
  readonly shaped: readonly Stroke[];
}

/** The programs of a job as read, in its order, and what they cut on each sheet that bears parts: worked out once. */
export const cutsOf: (job: JobToProve) => {
  readonly programs: readonly Written[];
  readonly sheets: readonly SheetCuts[];
} = once((job: JobToProve) => {
  const parts = new Map(job.assembly.parts.map((part) => [part.id, part]));
  const programs = job.programs.map((program) => ({
    program,
    read: readProgram(program.text, { file: program.file, dwellUnit: job.machine.dwellUnit }),
  }));
  const sheets = job.sheets.flatMap((sheet) => {
    const own = programs.filter(({ program }) => program.sheet === sheet.id);
    return cutsOn(job, sheet, parts, own) ?? [];
  });
  return { programs, sheets };
});

function cutsOn(
  job: JobToProve,
  sheet: Sheet,
  parts: ReadonlyMap<string, Part>,
  programs: readonly Written[],
): SheetCuts | null {
  const placed = sheet.parts.flatMap(({ part, placement }): Placed[] => {
    const found = parts.get(part);
    return found === undefined ? [] : [{ part: found, placement }];
  });
  const first = placed[0];
  if (first === undefined) return null;
  const { thickness } = first.part;
  const flip = job.flips[sheet.id];
  const mounted = programs.map(({ program, read }) => mountedCutters(program, read));
  const runs = programs.map(({ program, read }, i): Run => {
    const { cutterOf } = mounted[i]!;
    return { program, read, machine: job.machine, thickness, cutterOf, pins: flip?.pins };
  });
  const stroked = runs.map((run) => {
    const all = strokesOf(run.program, run.read.motions, run.cutterOf, flip);
    return {
      run,
      strokes: all.filter(({ cutter }) => isCylindrical(cutter)),
      shaped: all.filter(({ cutter }) => isShaped(cutter)),
    };
  });
  return {
    sheet,
    placed,
    programs,
    files: programs.map(({ program }) => program),
    flip,
    mounted,
    runs,
    stroked,
    strokes: deepest(stroked.flatMap((each) => each.strokes)),
    shaped: stroked.flatMap((each) => each.shaped),
  };
}

/** What shaped cutters take off is no deviation of the panel: `checkEdges` judges it. */
function isCylindrical(cutter: CutterFacts): boolean {
  return cutter.diameter > 0 && !isShaped(cutter);
}
