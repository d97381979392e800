import type { Finding } from "@dryfit/joinery";
import { readBlock } from "./block.ts";
import { type Controller, controllerAt, type Stated } from "./controller.ts";
import { execute } from "./execute.ts";
import { extentsOf, type Motion, type Position } from "./motion.ts";
import { type Problem, problem } from "./problem.ts";

export interface ReadOptions {
  /** Leads every finding's path. */
  readonly file?: string;
  /** What G4's P counts. Seconds in NISTIR 6556; some controllers read milliseconds. */
  readonly dwellUnit?: "s" | "ms";
  /** Where the tip stands before the first line, mm; null: nobody knows. */
  readonly start?: Position | null;
}

/** A program as a strict controller understands it. mm. */
export interface ReadProgram {
  readonly motions: readonly Motion[];
  readonly facts: ProgramFacts;
  readonly findings: readonly Finding[];
}

export interface ProgramFacts {
  /** What the program had set itself by the first motion. */
  readonly stated: Readonly<Stated>;
  /** The box of the feed moves; null where there is none. */
  readonly extents: { readonly min: Position; readonly max: Position } | null;
  /** The lowest z of a feed move. */
  readonly deepest: number | null;
  /** Lines that hold words. */
  readonly blocks: number;
  /** Where another cutter goes into the spindle. */
  readonly cutterChanges: readonly { readonly line: number; readonly cutter: number }[];
  readonly dwellSeconds: number;
  /** The line of M2 or M30, or of the closing percent mark; null where nothing ends the program. */
  readonly end: number | null;
  /** Whether the spindle still turns after the last line. */
  readonly spindleLeftOn: boolean;
}

const AXES = ["x", "y", "z"] as const;

/** Beyond this many, one more finding says so and reading stops. */
const PROBLEMS_MAX = 200;

/**
 * Reads a program by the rules of NISTIR 6556 and says what a strict controller would refuse.
 *
 * Never throws, whatever the text. A line that is wrong is left out, and reading goes on after it.
 */
export function readProgram(text: string, options: ReadOptions = {}): ReadProgram {
  const { file = "", dwellUnit = "s", start = null } = options;
  const lines = text.split(/\r\n|\n|\r/);
  const controller = controllerAt(start);
  const motions: Motion[] = [];
  const findings: Finding[] = [];
  const cutterChanges: { line: number; cutter: number }[] = [];
  const report = (line: number, found: Problem) => findings.push(findingOf(file, line, found));

  const first = lines.findIndex((line) => line.trim() !== "");
  const marked = first >= 0 && lines[first]!.trim() === "%";
  let blocks = 0;
  let end: number | null = null;
  let stated: Stated | null = null;
  let index = marked ? first + 1 : Math.max(first, 0);
  for (; index < lines.length && end === null; index++) {
    const line = index + 1;
    const source = lines[index]!;
    if (marked && source.trim() === "%") {
      end = line;
      break;
    }
    const block = readBlock(source, controller.parameters);
    for (const found of block.problems) report(line, found);
    if (block.deletable)
      report(line, problem("block_delete", "A switch at the machine decides whether this line runs."));
    if (hasWords(block)) blocks++;
    if (block.problems.every((found) => found.severity === "warning")) {
      const cutter = controller.cutter;
      controller.line = line;
      const problems = execute(
        controller,
        block,
        (motion) => {
          stated ??= { ...controller.stated };
          motions.push(motion);
        },
        dwellUnit === "ms" ? 0.001 : 1,
      );
      for (const found of problems) report(line, found);
      for (const [parameter, value] of block.settings) controller.parameters.set(parameter, value);
      if (controller.cutter !== cutter) cutterChanges.push({ line, cutter: controller.cutter });
      if (controller.ended) end = line;
    }
    if (findings.length > PROBLEMS_MAX) {
      report(line, problem("too_many_problems", "Too much is wrong: the rest is not read."));
      break;
    }
  }

  checkEnd(lines, end, marked, controller, report);
  return {
    motions,
    findings,
    facts: {
      stated: stated ?? controller.stated,
      ...extremes(motions),
      blocks,
      cutterChanges,
      dwellSeconds: controller.dwellSeconds,
      end,
      spindleLeftOn: controller.spindle !== "off" && !controller.ended,
    },
  };
}

function checkEnd(
  lines: readonly string[],
  end: number | null,
  marked: boolean,
  controller: Controller,
  report: (line: number, found: Problem) => void,
): void {
  if (end === null) {
    report(
      lines.length,
      marked
        ? problem("missing_percent", "The program starts with % and never ends with one.")
        : problem("missing_program_end", "The program ends without M2 or M30."),
    );
    return;
  }
  if (!controller.ended) return;
  const rest = lines.slice(end).findIndex((line) => !isBlank(line));
  if (rest >= 0)
    report(
      end + rest + 1,
      problem("text_after_end", `Line ${end} ends the program: what follows is never cut.`, { end }),
    );
}

/** Comments and percent marks after the end do no harm. */
function isBlank(line: string): boolean {
  return (
    line
      .replace(/\([^()]*\)|;.*/g, "")
      .trim()
      .replace("%", "") === ""
  );
}

function hasWords(block: ReturnType<typeof readBlock>): boolean {
  if (block.g.length > 0 || block.m.length > 0 || block.settings.length > 0) return true;
  for (const _ in block.words) return true;
  return false;
}

function extremes(motions: readonly Motion[]): Pick<ProgramFacts, "extents" | "deepest"> {
  const min = { x: Infinity, y: Infinity, z: Infinity };
  const max = { x: -Infinity, y: -Infinity, z: -Infinity };
  for (const motion of motions) {
    if (motion.kind === "rapid") continue;
    const box = extentsOf(motion);
    for (const axis of AXES) {
      min[axis] = Math.min(min[axis], box.min[axis]);
      max[axis] = Math.max(max[axis], box.max[axis]);
    }
  }
  return min.x > max.x ? { extents: null, deepest: null } : { extents: { min, max }, deepest: min.z };
}

function findingOf(file: string, line: number, found: Problem): Finding {
  return {
    code: found.code,
    severity: found.severity ?? "error",
    path: file === "" ? `${line}` : `${file}:${line}`,
    message: found.message,
    numbers: { line, ...found.numbers },
  };
}
