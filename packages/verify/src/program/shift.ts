import type { Words } from "./block.ts";
import { type Codes, hasAxes } from "./codes.ts";
import { type Controller, type Emit, mmPerUnit, originOf, travel } from "./controller.ts";
import type { Axis, Position } from "./motion.ts";
import { type Problem, problem } from "./problem.ts";

const AXES: readonly Axis[] = ["x", "y", "z"];
const ZERO: Position = { x: 0, y: 0, z: 0 };

/** G92 and its kin, and G10: they shift where the program's zero lies (NISTIR 6556, 3.5.5, 3.5.18). */
export function shiftAxes(
  controller: Controller,
  codes: Codes,
  words: Words,
  doubts: Problem[],
): Problem | null {
  const code = codes.nonModal;
  if (code === 920) {
    if (!hasAxes(words)) return problem("axis_words_missing", "G92 needs an axis word.");
    const told = AXES.filter((axis) => words[axis] !== undefined);
    if (told.some((axis) => !controller.known[axis]))
      return problem(
        "unknown_start",
        "G92 names a place before the program has said where the cutter stands.",
      );
    const shift = { ...controller.shift };
    for (const axis of told) {
      // The tip stays; its number becomes what the word says.
      const number = words[axis]! * mmPerUnit(controller);
      shift[axis] += controller.position[axis] - originOf(controller, axis) - number;
    }
    controller.shift = shift;
    controller.keptShift = shift;
  } else if (code === 921) {
    controller.shift = ZERO;
    controller.keptShift = ZERO;
  } else if (code === 922) controller.shift = ZERO;
  else if (code === 923) controller.shift = controller.keptShift;
  else if (code === 100) return setSystem(controller, words, doubts);
  return null;
}

/** G28 and G30: by way of the named point to a reference position that the controller keeps. */
export function toReference(
  controller: Controller,
  codes: Codes,
  words: Words,
  emit: Emit,
  doubts: Problem[],
): Problem | null {
  if (codes.nonModal !== 280 && codes.nonModal !== 300) return null;
  doubts.push(
    problem("unknown_offset", `G${codes.nonModal / 10} moves to a place that is not in the program.`, {
      code: codes.nonModal / 10,
    }),
  );
  if (!hasAxes(words)) return null;
  const scale = mmPerUnit(controller);
  const via = { ...controller.position };
  for (const axis of AXES) {
    const word = words[axis];
    if (word !== undefined)
      via[axis] = word * scale + (controller.absolute ? originOf(controller, axis) : via[axis]);
  }
  travel(controller, emit, via, 0);
  return null;
}

/** G10 L2 P1 to P9: the origin of a work coordinate system, in machine coordinates. */
function setSystem(controller: Controller, words: Words, doubts: Problem[]): Problem | null {
  if (words.l !== 2) return problem("unsupported_code", "G10 is read with L2 only.");
  const system = words.p;
  if (system === undefined || !Number.isInteger(system) || system < 1 || system > controller.systems.length)
    return problem("value_out_of_range", "G10 L2 needs P, a whole number from 1 to 9.");
  const origin = { ...controller.systems[system - 1]! };
  for (const axis of AXES) if (words[axis] !== undefined) origin[axis] = words[axis] * mmPerUnit(controller);
  controller.systems[system - 1] = origin;
  doubts.push(problem("unknown_offset", "G10 sets a work offset in machine coordinates."));
  return null;
}
