import type { Finding, Thickness } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { checkInOrder } from "./check/in-order.ts";
import { checkKeepOuts } from "./check/keep-outs.ts";
import { checkOnMachine } from "./check/on-machine.ts";
import { strokesOf } from "./cut/stroke.ts";
import { mountedCutters } from "./mounted-cutters.ts";
import { type ReadProgram, readProgram } from "./program/read-program.ts";
import type { MachineFacts, ProgramFile } from "./proof.ts";

/** What one program is judged against where there is no job that it belongs to. */
export interface ProgramBench {
  readonly sheet: Sheet;
  readonly thickness: Thickness;
  readonly machine: MachineFacts;
}

/** A program on its own, on a fresh sheet: whether a controller, a machine and a cutter bear it. No part is known. */
export function checkProgram(
  program: ProgramFile,
  { sheet, thickness, machine }: ProgramBench,
): { readonly read: ReadProgram; readonly findings: readonly Finding[] } {
  const read = readProgram(program.text, { file: program.file, dwellUnit: machine.dwellUnit });
  const { cutterOf, findings } = mountedCutters(program, read);
  const run = { program, read, machine, thickness, cutterOf };
  const strokes = strokesOf(program, read.motions, cutterOf, undefined);
  return {
    read,
    findings: [
      ...read.findings,
      ...findings,
      ...checkOnMachine(run),
      ...checkKeepOuts(run, sheet, undefined),
      ...checkInOrder(sheet, [{ run, strokes, shaped: [] }], undefined),
    ],
  };
}
