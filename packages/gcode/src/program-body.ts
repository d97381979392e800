import type { Part } from "@dryfit/joinery";
import { blocksOf, dwellWord, OPERATION_MODES } from "./blocks.ts";
import type { Cutter } from "./cutter.ts";
import { cutterText } from "./cutter-text.ts";
import { comment, type Line, message, words } from "./lines.ts";
import type { Controller, Machine } from "./machine.ts";
import { coordinateWord, plainWord } from "./rounding.ts";
import type { Operation } from "./toolpath.ts";
import type { OperationCut, ProgramJob, Tool } from "./write-program.ts";

/** All blocks of a program: modes, retract, then cutter after cutter, retract, end. `safeZ` in the program's frame. */
export function bodyOf(cuts: readonly OperationCut[], job: ProgramJob, safeZ: number): readonly Line[] {
  const { machine, parts } = job;
  const { controller } = machine;
  const up = words("G0", coordinateWord("Z", safeZ, controller));
  const operations = cuts.flatMap(({ operation, tool, motions }, k): readonly Line[] => {
    const before = cuts[k - 1];
    const change =
      before?.tool === tool
        ? []
        : [...(before ? [up] : []), ...mounting(tool, before === undefined, machine)];
    const title = comment(`Block ${k + 1}: ${titleOf(operation, parts)}`);
    return [...change, title, restated(tool, controller), ...blocksOf(motions, k + 1, controller)];
  });
  const stop = controller.spindleControl ? words("M5") : comment("Switch the spindle off.");
  return [modesLine(controller), up, ...operations, comment("End"), up, stop, words(controller.programEnd)];
}

/** Units, plane, absolute, feed per minute, work zero, path control: what a program must not leave to chance. */
export function modesLine({ workOffset, pathMode }: Controller): Line {
  return words(
    "G21",
    "G17",
    "G90",
    "G94",
    workOffset === "none" ? null : workOffset,
    pathMode === "none" ? null : pathMode,
  );
}

/** Modes and speed again at every operation, so that a program can be taken up there. */
function restated({ rpm }: Tool, { spindleControl }: Controller): Line {
  return words(...OPERATION_MODES, ...(spindleControl ? [plainWord("S", rpm, 0), "M3"] : []));
}

/** Puts the cutter in, where the controller does it or waits for it, and starts it. */
function mounting(tool: Tool, isFirst: boolean, { controller, spindle }: Machine): readonly Line[] {
  const { cutter, rpm } = tool;
  const start = controller.spindleControl
    ? [words(plainWord("S", rpm, 0), "M3"), words("G4", dwellWord(spindle.spinUpSeconds, controller))]
    : [message(`Switch the spindle on at ${rpm} rpm, then go on.`), words("M0")];
  return [...change(cutter, isFirst, controller), ...start];
}

function change(cutter: Cutter, isFirst: boolean, controller: Controller): readonly Line[] {
  if (controller.cutterChange === "in-program") {
    const lengths = controller.lengthTable ? [words("G43", plainWord("H", cutter.number, 0))] : [];
    return [words(plainWord("T", cutter.number, 0), "M6"), ...lengths];
  }
  // The operator has fitted the first one already.
  if (isFirst) return [];
  const stop = controller.spindleControl ? [words("M5")] : [];
  const off = controller.spindleControl ? "Fit" : "Switch the spindle off, fit";
  // The T word tells any reader which cutter a person puts in at this stop.
  const wait = words(plainWord("T", cutter.number, 0), "M0");
  return [...stop, message(`${off} ${cutterText(cutter)}, set Z zero anew, then go on.`), wait];
}

/** "Front rail, groove": the part by its title, the feature as the plan names it. */
function titleOf({ feature, part, kind }: Operation, parts: readonly Part[]): string {
  const title = parts.find(({ id }) => id === part)?.title;
  const what = feature === "" ? kind : feature;
  return title === undefined ? what : `${title}, ${what}`;
}
