import { turnOf } from "./arc.ts";
import type { Block, Words } from "./block.ts";
import { type Codes, codesOf, hasAxes, takesAxes, unusedWord } from "./codes.ts";
import { type Controller, type Emit, mmPerUnit, originOf, travel } from "./controller.ts";
import { drill } from "./cycle.ts";
import { type Axis, lengthOfMotion, type Plane, type Position } from "./motion.ts";
import { doubt, type Problem, problem } from "./problem.ts";
import { shiftAxes, toReference } from "./shift.ts";
import { WHOLE } from "./value.ts";

const AXES: readonly Axis[] = ["x", "y", "z"];
const PLANES: Readonly<Record<number, Plane>> = { 170: "XY", 180: "XZ", 190: "YZ" };
/** Longer than any spindle needs to run up: perhaps milliseconds, read as seconds. */
const LONG_DWELL_SECONDS = 120;

/** Carries out one line in the order of NISTIR 6556, table 8, and tells what was wrong with it. */
export function execute(
  controller: Controller,
  block: Block,
  emit: Emit,
  secondsPerDwell: number,
): readonly Problem[] {
  const doubts: Problem[] = [];
  const codes = codesOf(block);
  if ("code" in codes) return [codes];
  const wrong = valuesProblem(block.words) ?? setModes(controller, block, codes, doubts, secondsPerDwell);
  if (wrong !== null) return [...doubts, wrong];
  const failed =
    shiftAxes(controller, codes, block.words, doubts) ?? move(controller, block, codes, emit, doubts);
  stop(controller, codes);
  return failed === null ? doubts : [...doubts, failed];
}

/** Steps 2 to 18: feed, spindle, cutter, dwell, and what later numbers mean. */
function setModes(
  controller: Controller,
  { words }: Block,
  codes: Codes,
  doubts: Problem[],
  secondsPerDwell: number,
): Problem | null {
  if (codes.feedMode !== null) {
    // A feed means something else in the other mode: it must be given anew.
    if (controller.inverseTime !== (codes.feedMode === 930)) controller.feed = 0;
    controller.inverseTime = codes.feedMode === 930;
    controller.stated.feedMode = true;
  }
  if (words.f !== undefined)
    controller.feed = controller.inverseTime ? words.f : words.f * mmPerUnit(controller);
  if (words.s !== undefined) controller.rpm = words.s;
  if (words.t !== undefined) controller.selected = Math.round(words.t);
  if (codes.cutterChange) {
    controller.cutter = controller.selected;
    controller.spindle = "off";
  }
  if (codes.spindle !== null)
    controller.spindle = codes.spindle === 5 ? "off" : codes.spindle === 3 ? "cw" : "ccw";
  if (codes.nonModal === 40) {
    if (words.p === undefined) return problem("missing_word", "A dwell (G4) needs its time P.");
    const seconds = words.p * secondsPerDwell;
    controller.dwellSeconds += seconds;
    if (seconds > LONG_DWELL_SECONDS)
      doubts.push(doubt("long_dwell", `A dwell of ${seconds} s: are these milliseconds?`, { seconds }));
  }
  if (codes.plane !== null) {
    controller.plane = PLANES[codes.plane]!;
    controller.stated.plane = true;
  }
  if (codes.units !== null) setUnits(controller, codes.units === 200, doubts);
  if (codes.compensation !== null && codes.compensation !== 400)
    return problem(
      "unsupported_code",
      "Cutter compensation (G41, G42) depends on a table outside the program.",
      {
        code: codes.compensation / 10,
      },
    );
  if (codes.lengthOffset === 430)
    doubts.push(doubt("length_offset", "The length offset (G43) must match the cutter: read as if it does."));
  if (codes.workOffset !== null) setWorkOffset(controller, codes.workOffset, doubts);
  if (codes.distance !== null) {
    controller.absolute = codes.distance === 900;
    controller.stated.distance = true;
  }
  if (codes.retract !== null) controller.returnsToStart = codes.retract === 980;
  return null;
}

function setUnits(controller: Controller, inch: boolean, doubts: Problem[]): void {
  const units = inch ? "inch" : "mm";
  if (controller.stated.units !== null && controller.inch !== inch)
    doubts.push(doubt("units_changed", `The units change to ${units} in mid-program.`));
  controller.inch = inch;
  controller.stated.units ??= units;
}

function setWorkOffset(controller: Controller, code: number, doubts: Problem[]): void {
  const system = code <= 590 ? (code - 540) / 10 : code - 590 + 5;
  if (controller.stated.workOffset && system !== controller.system)
    doubts.push(
      problem("unknown_offset", "A second work offset: where it lies is not in the program.", {
        code: code / 10,
      }),
    );
  controller.system = system;
  controller.stated.workOffset = true;
}

/** Steps 19 and 20: the motion itself. */
function move(
  controller: Controller,
  block: Block,
  codes: Codes,
  emit: Emit,
  doubts: Problem[],
): Problem | null {
  const { words } = block;
  const code = codes.motion ?? controller.motion;
  const unused = unusedWord(block, codes, takesAxes(codes.nonModal) ? 800 : code);
  if (unused !== null)
    return problem("unused_word", `Nothing on this line makes use of ${unused.toUpperCase()}.`);
  if (takesAxes(codes.nonModal)) return toReference(controller, codes, words, emit, doubts);
  if (words.a !== undefined || words.b !== undefined || words.c !== undefined)
    return problem("unsupported_code", "A router has no rotary axes (A, B, C).");
  if (code !== controller.motion && (code < 810 || code > 890)) {
    controller.motion = code;
    controller.cycle = null;
  }
  const bends =
    words.i !== undefined || words.j !== undefined || words.k !== undefined || words.r !== undefined;
  if (!hasAxes(words) && codes.motion === null && !bends) return null;
  if (code === 800)
    return hasAxes(words)
      ? problem("axis_words_unused", "Axis words, but no motion (G0 to G3, G81 to G83) is in force.")
      : null;
  if (code === 382)
    return problem("unsupported_code", "Probing (G38.2) ends where nobody knows.", { code: 38.2 });
  if (code >= 810) {
    if (!AXES.every((axis) => controller.known[axis]))
      return problem("unknown_start", "A cycle runs before the program has said where the cutter stands.");
    return drill(controller, emit, code, words);
  }
  if (code === 0 || code === 10) {
    if (!hasAxes(words)) return problem("axis_words_missing", `G${code / 10} needs an axis word.`);
  } else if (codes.nonModal === 530) return problem("unknown_code", "G53 goes with G0 or G1 only.");
  return straightOrArc(controller, code, words, codes, emit, doubts);
}

function straightOrArc(
  controller: Controller,
  code: number,
  words: Words,
  codes: Codes,
  emit: Emit,
  doubts: Problem[],
): Problem | null {
  const machine = codes.nonModal === 530;
  if (machine)
    doubts.push(
      problem("unknown_offset", "G53 moves in machine coordinates: where they lie is not in the program."),
    );
  const to = targetOf(controller, words, machine);
  if ("code" in to) return to;
  const feeds = code !== 0;
  if (feeds && (controller.feed === 0 || (controller.inverseTime && words.f === undefined)))
    return problem(
      "feed_missing",
      controller.inverseTime
        ? "In inverse time every cutting line needs its F."
        : "A cutting move without a feed.",
    );
  const from = controller.position;
  const arc =
    code < 20
      ? null
      : turnOf({
          plane: controller.plane,
          from,
          to,
          clockwise: code === 20,
          inch: controller.inch,
          words,
          mmPerUnit: mmPerUnit(controller),
        });
  if (arc !== null && "code" in arc) {
    // Nothing is cut, but what follows is read as if the arc had been.
    controller.position = to;
    return arc;
  }
  // Inverse time: F is one over the minutes that the whole move takes.
  const feed = controller.inverseTime ? controller.feed * lengthOfMotion({ from, to, arc }) : controller.feed;
  travel(controller, emit, to, feeds ? feed : 0, arc);
  return null;
}

/** Where the axis words lead. An axis told for the first time counts as having been there already. */
function targetOf(controller: Controller, words: Words, machine: boolean): Position | Problem {
  const scale = mmPerUnit(controller);
  const relative = !controller.absolute && !machine;
  const { x, y, z } = controller.position;
  const to = { x, y, z };
  for (const axis of AXES) {
    const word = words[axis];
    if (word === undefined) continue;
    if (relative && !controller.known[axis])
      return problem(
        "unknown_start",
        `${axis.toUpperCase()} moves by a step before the program has said where it stands.`,
      );
    to[axis] = word * scale + (relative ? to[axis] : machine ? 0 : originOf(controller, axis));
    if (!controller.known[axis]) controller.position = { ...controller.position, [axis]: to[axis] };
    controller.known[axis] = true;
  }
  const sideways = words.x !== undefined || words.y !== undefined;
  if (sideways && !controller.known.z)
    return problem("unknown_start", "The cutter moves sideways before its height is known.");
  return to;
}

function stop(controller: Controller, codes: Codes): void {
  if (codes.stop === 2 || codes.stop === 30) controller.ended = true;
  // A pause after another cutter was named is where a person puts it in.
  else if (codes.stop !== null && controller.selected !== 0) controller.cutter = controller.selected;
}

const WHOLE_WORDS = ["t", "d", "h", "l"] as const;
const POSITIVE_WORDS = ["f", "s", "t", "d", "h", "p"] as const;

function valuesProblem(words: Words): Problem | null {
  for (const letter of WHOLE_WORDS) {
    const value = words[letter];
    if (value !== undefined && Math.abs(value - Math.round(value)) > WHOLE)
      return problem("value_out_of_range", `${letter.toUpperCase()} must be a whole number, not ${value}.`);
  }
  for (const letter of POSITIVE_WORDS) {
    const value = words[letter];
    if (value !== undefined && value < 0)
      return problem("value_out_of_range", `${letter.toUpperCase()} cannot be negative: ${value}.`);
  }
  return null;
}
