import { CUT_MM, OUTPUT_STEP_MM } from "@dryfit/geometry";
import type { Finding, Thickness } from "@dryfit/joinery";
import { depthOf } from "../cut/stroke.ts";
import { extentsOf, lengthOfMotion, type Motion } from "../program/motion.ts";
import type { ReadProgram } from "../program/read-program.ts";
import type { CutterFacts, MachineFacts, ProgramFile, SheetFlip } from "../proof.ts";
import { type Fault, firstOfEach } from "./first-of-each.ts";

/** A program as read, and what it runs on. */
export interface Run {
  readonly program: ProgramFile;
  readonly read: ReadProgram;
  readonly machine: MachineFacts;
  readonly thickness: Thickness;
  readonly cutterOf: (motion: Motion) => CutterFacts;
  /** Where setup A may bore into the board under the sheet, as a program of setup A sees it. */
  readonly pins?: SheetFlip["pins"] | undefined;
}

/** What a machine would stumble over, stock and parts apart: modes, spindle, plunge, travel, bed, flutes. */
export function checkOnMachine(run: Run): Finding[] {
  return firstOfEach(run.program.file, faultsOf(run));
}

function* faultsOf(run: Run): Iterable<Fault> {
  yield* unstated(run);
  yield* beyondTravel(run);
  for (const motion of run.read.motions) {
    if (motion.kind === "rapid") continue;
    yield* plunge(run, motion);
    const depth = depthUnderFace(run, motion);
    if (depth <= OUTPUT_STEP_MM) continue;
    yield* spindle(run, motion);
    yield* flutes(run, motion, depth);
    yield* bed(run, motion);
  }
  if (run.read.facts.spindleLeftOn)
    yield {
      code: "spindle_left_on",
      line: run.read.facts.end ?? 1,
      severity: "warning",
      message: "The program ends and leaves the spindle running.",
    };
}

/** Modes that the program leaves to whatever ran before it. */
function* unstated({ read }: Run): Iterable<Fault> {
  const { stated } = read.facts;
  const line = read.motions[0]?.line ?? 1;
  if (stated.units === null)
    yield { code: "missing_units", line, message: "The program moves before it says G20 or G21." };
  if (!stated.plane) yield { code: "missing_plane", line, message: "The program moves before it says G17." };
  if (!stated.distance)
    yield { code: "missing_distance_mode", line, message: "The program moves before it says G90 or G91." };
  if (!stated.feedMode)
    yield { code: "missing_feed_mode", line, message: "The program moves before it says G93 or G94." };
}

function* beyondTravel({ read, machine }: Run): Iterable<Fault> {
  for (const axis of ["x", "y", "z"] as const) {
    let [min, max, line] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
    for (const motion of read.motions) {
      const box = extentsOf(motion);
      if (box.min[axis] < min || box.max[axis] > max) line = motion.line;
      min = Math.min(min, box.min[axis]);
      max = Math.max(max, box.max[axis]);
    }
    const most = machine.travel[axis];
    if (max - min > most)
      yield {
        code: "beyond_travel",
        line,
        message: `The program moves from ${mm(min)} to ${mm(max)} in ${axis.toUpperCase()}, the machine ${most} mm in all.`,
        numbers: { min, max, travel: most },
        wayOut: "Use a smaller sheet, or turn it.",
      };
  }
}

function* plunge({ machine }: Run, motion: Motion): Iterable<Fault> {
  const down = motion.from.z - motion.to.z;
  if (down <= 0) return;
  const speed = (motion.feed * down) / lengthOfMotion(motion);
  const most = machine.maxPlungeMmPerMin;
  if (speed > most * (1 + SPEED_SLACK))
    yield {
      code: "plunge_too_fast",
      line: motion.line,
      message: `The cutter goes down at ${Math.round(speed)} mm/min, at most ${most} mm/min are allowed.`,
      numbers: { speed, most },
    };
}

/** A feed printed in whole mm/min on a slope printed in thousandths. */
const SPEED_SLACK = 0.002;

function* spindle({ machine, cutterOf }: Run, motion: Motion): Iterable<Fault> {
  if (machine.spindleControl === false) return;
  const { line, rpm } = motion;
  if (motion.spindle === "off" || rpm === 0) {
    yield { code: "spindle_off", line, message: "The cutter is fed into wood while the spindle stands." };
    return;
  }
  if (motion.spindle === "ccw")
    yield {
      code: "spindle_backwards",
      line,
      message: "The cutter is fed into wood while it turns backwards.",
    };
  const least = machine.spindle.minRpm;
  const most = Math.min(machine.spindle.maxRpm, cutterOf(motion).maxRpm);
  if (rpm < least || rpm > most)
    yield {
      code: "spindle_speed",
      line,
      message: `${rpm} rpm, but spindle and cutter bear ${least} to ${most}.`,
      numbers: { rpm, least, most },
    };
}

function* flutes({ cutterOf }: Run, motion: Motion, depth: number): Iterable<Fault> {
  const { fluteLength, shankDiameter, diameter, bearingHeight } = cutterOf(motion);
  // Under a profile there is only its bearing.
  if (depth - (bearingHeight ?? 0) <= fluteLength) return;
  const numbers = { depth, fluteLength };
  if (shankDiameter > diameter)
    yield {
      code: "shank_in_wood",
      line: motion.line,
      message: `${mm(depth)} deep with flutes of ${fluteLength} mm: the shank, ${shankDiameter} mm wide, meets the wood.`,
      numbers: { ...numbers, shankDiameter },
    };
  else
    yield {
      code: "deeper_than_flutes",
      line: motion.line,
      message: `${mm(depth)} deep with flutes of ${fluteLength} mm.`,
      numbers,
    };
}

/** How far under the stock a tip may go. With the top as zero the thickest reading tells where that is. */
function* bed(run: Run, motion: Motion): Iterable<Fault> {
  const { program, machine, thickness } = run;
  const lowest = Math.min(motion.from.z, motion.to.z);
  const under = program.zZero === "bed" ? -lowest : -lowest - thickness.max;
  const most = Math.max(machine.bedAllowance, pinDepthAt(run, motion));
  if (under > most + OUTPUT_STEP_MM)
    yield {
      code: "below_bed",
      line: motion.line,
      message: `The tip goes ${mm(under)} under the stock, at most ${most} mm are allowed.`,
      numbers: { under, most },
    };
}

/** How deep the board under the sheet may be bored by a motion that stays within a pin's hole; else 0. */
function pinDepthAt({ program, pins, cutterOf }: Run, motion: Motion): number {
  if (pins === undefined || program.setup !== "A") return 0;
  const room = pins.diameter / 2 - cutterOf(motion).diameter / 2 + CUT_MM;
  const { min, max } = extentsOf(motion);
  const far = (axis: "x" | "y", at: number): number =>
    Math.max(Math.abs(min[axis] - at), Math.abs(max[axis] - at));
  return pins.at.some(([x, y]) => far("x", x) <= room && far("y", y) <= room) ? pins.depth : 0;
}

/** How deep the tip goes below the face that is up, mm; negative above it. */
function depthUnderFace({ program, thickness }: Run, { from, to }: Motion): number {
  const depth = depthOf(program, Math.min(from.z, to.z), thickness.mean);
  return program.setup === "A" ? depth : thickness.mean - depth;
}

const mm = (value: number) => `${Number(value.toFixed(3))} mm`;
