import type { Face, Part, Thickness } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import type { Cutter } from "./cutter.ts";
import { extentsOf } from "./extents.ts";
import { headerOf } from "./header.ts";
import { travelHeight } from "./keep-outs.ts";
import { blockCount, textOf } from "./lines.ts";
import type { Machine } from "./machine.ts";
import { endOfMotion, type Motion, motionsFromAnywhere } from "./motion.ts";
import { withPasses } from "./passes.ts";
import type { Flip, Program } from "./program.ts";
import { bodyOf } from "./program-body.ts";
import { machineStart, secondsOf } from "./time.ts";
import type { Operation, Position } from "./toolpath.ts";

/** A cutter and the one speed at which it runs. */
export interface Tool {
  readonly cutter: Cutter;
  readonly rpm: number;
}

/** All that one program says and needs. */
export interface ProgramJob {
  readonly file: string;
  /** Which it is, in words: "program 1 of 2 of this setup". */
  readonly which: string;
  /** What comes after it, as a sentence. */
  readonly next: string;
  readonly name: string;
  readonly sheet: Sheet;
  readonly setup: Face;
  readonly flip: Flip | null;
  /** On this sheet. */
  readonly parts: readonly Part[];
  readonly thickness: Thickness;
  /** At least one. */
  readonly operations: readonly Operation[];
  readonly tools: readonly Tool[];
  readonly machine: Machine;
}

/** An operation with the motions that its blocks hold. */
export interface OperationCut {
  readonly operation: Operation;
  readonly tool: Tool;
  readonly motions: readonly Motion[];
}

/** One program: its text, and its time and extents from the very numbers that stand in it. */
export function writeProgram(job: ProgramJob): Program {
  const { machine, sheet } = job;
  const zShift = machine.zZero === "bed" ? job.thickness.mean : 0;
  const cuts = job.operations.map((operation) => cutOf(operation, job, zShift));
  const start = { ...machineStart(machine), z: travelHeight(machine, sheet) + zShift };
  const extents = extentsOf(
    cuts.flatMap(({ motions }) => motions),
    start,
  );
  const facts = { ...timesOf(cuts, machine, start), extents, deepest: extents.z[0] };
  const body = bodyOf(cuts, job, start.z);
  return {
    file: job.file,
    sheet: job.sheet.id,
    setup: job.setup,
    cutters: job.tools.map(({ cutter }) => cutter),
    zZero: machine.zZero,
    text: textOf([...headerOf(job, facts), ...body], machine.controller),
    ...facts,
    blocks: blockCount(body, machine.controller),
    tabs: job.operations.flatMap(({ tabs }) => tabs),
    corners: job.operations.flatMap(({ corners }) => corners),
    edges: job.operations.flatMap(({ edge }) => edge ?? []),
    cleared: job.operations.flatMap(({ part, feature, cleared }) =>
      cleared === undefined ? [] : [{ part, feature, ...cleared }],
    ),
    skin: job.operations.find(({ skin }) => skin !== undefined)?.skin ?? null,
  };
}

/** A program can be taken up at any operation, so each begins from anywhere. */
function cutOf(operation: Operation, { machine, tools }: ProgramJob, zShift: number): OperationCut {
  const tool = tools.find(({ cutter }) => cutter.id === operation.cutter);
  if (tool === undefined)
    throw new RangeError(`${operation.id} wants cutter ${operation.cutter}, which is not at hand`);
  return {
    operation,
    tool,
    motions: motionsFromAnywhere(withPasses(operation.moves), {
      controller: machine.controller,
      zShift,
      mostDown: machine.maxFeedMmPerMin.z,
    }),
  };
}

/** Operations begin at rest, since each states the spindle's speed anew. */
function timesOf(
  cuts: readonly OperationCut[],
  machine: Machine,
  start: Position,
): { readonly minutes: number; readonly partMinutes: Readonly<Record<string, number>> } {
  const partMinutes: Record<string, number> = {};
  const spend = (part: string, seconds: number): void => {
    partMinutes[part] = (partMinutes[part] ?? 0) + seconds / 60;
  };
  let at = start;
  let mounted: Tool | null = null;
  for (const { operation, tool, motions } of cuts) {
    if (tool !== mounted) spend("", machine.spindle.spinUpSeconds);
    mounted = tool;
    spend(
      operation.part,
      secondsOf(motions, machine, at).reduce((a, b) => a + b, 0),
    );
    at = motions.reduce((from, motion) => endOfMotion(motion, from), at);
  }
  return { minutes: Object.values(partMinutes).reduce((a, b) => a + b, 0), partMinutes };
}
