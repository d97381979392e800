import { blocksOf } from "./blocks.ts";
import { comment, textOf, words } from "./lines.ts";
import type { Machine } from "./machine.ts";
import { motionsFromAnywhere } from "./motion.ts";
import { modesLine } from "./program-body.ts";
import { coordinateWord } from "./rounding.ts";
import { machineStart, secondsOf } from "./time.ts";
import type { Move } from "./toolpath.ts";

/** A program that only moves in the air, its spindle still. */
export interface AirProgram {
  readonly file: string;
  readonly text: string;
  readonly seconds: number;
}

export interface AirJob {
  readonly file: string;
  /** Comment lines at the top; the time is added. */
  readonly header: (seconds: number) => readonly string[];
  /** In the frame of the face that is up; the first is a rapid. */
  readonly moves: readonly Move[];
  /** How far the program's zero lies below that face. */
  readonly zShift: number;
  /** Over that face at which it begins and ends; absent: that of rapids. */
  readonly height?: number;
  readonly machine: Machine;
}

export function airProgram({
  file,
  header,
  moves,
  zShift,
  machine,
  height = machine.safeHeight,
}: AirJob): AirProgram {
  const { controller } = machine;
  const start = { ...machineStart(machine), z: height };
  const motions = motionsFromAnywhere(moves, { controller, zShift });
  const shifted = { ...start, z: start.z + zShift };
  const seconds = secondsOf(motions, machine, shifted).reduce((a, b) => a + b, 0);
  const up = words("G0", coordinateWord("Z", height + zShift, controller));
  const lines = [
    ...header(seconds).map(comment),
    modesLine(controller),
    up,
    ...blocksOf(motions, 1, controller),
    up,
    words(controller.programEnd),
  ];
  return { file, text: textOf(lines, controller), seconds };
}
