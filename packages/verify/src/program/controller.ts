import type { Axis, Motion, Plane, Position, Turn } from "./motion.ts";

/** What is in force while a program runs. The one thing here that changes in place: a program is a story. */
export interface Controller {
  /** G code times ten; 800 where no motion is in force. */
  motion: number;
  plane: Plane;
  absolute: boolean;
  inverseTime: boolean;
  inch: boolean;
  /** mm/min, or 1/min in inverse time; 0 where it must be given. */
  feed: number;
  spindle: "off" | "cw" | "ccw";
  rpm: number;
  selected: number;
  cutter: number;
  /** G98: a cycle returns to the height it started from. */
  returnsToStart: boolean;
  cycle: Sticky | null;
  /** The line that is being carried out, from 1. */
  line: number;
  position: Position;
  /** Axes whose place the program has told. */
  readonly known: Record<Axis, boolean>;
  /** Origins of the nine work coordinate systems, mm. Zero unless the program sets them. */
  readonly systems: Position[];
  system: number;
  /** G92's shift in force and as kept for G92.3, mm. */
  shift: Position;
  keptShift: Position;
  readonly parameters: Map<number, number>;
  dwellSeconds: number;
  ended: boolean;
  readonly stated: Stated;
}

/** Which of the modes that decide what a number means the program has set itself. */
export interface Stated {
  units: "mm" | "inch" | null;
  plane: boolean;
  distance: boolean;
  feedMode: boolean;
  workOffset: boolean;
}

/** What a cycle keeps for its next line, as the numbers stand in the program. */
interface Sticky {
  readonly r: number;
  readonly z: number;
  readonly p: number;
  readonly q: number;
}

export type Emit = (motion: Motion) => void;

const ORIGIN: Position = { x: 0, y: 0, z: 0 };
const SYSTEMS = 9;

/** `start` is where the tip stands, where that is known. G98 at the start: from memory, NISTIR 6556 does not say. */
export function controllerAt(start: Position | null): Controller {
  const known = start !== null;
  return {
    motion: 800,
    plane: "XY",
    absolute: true,
    inverseTime: false,
    inch: false,
    feed: 0,
    spindle: "off",
    rpm: 0,
    selected: 0,
    cutter: 0,
    returnsToStart: true,
    cycle: null,
    line: 0,
    position: start ?? ORIGIN,
    known: { x: known, y: known, z: known },
    systems: Array.from({ length: SYSTEMS }, () => ORIGIN),
    system: 0,
    shift: ORIGIN,
    keptShift: ORIGIN,
    parameters: new Map(),
    dwellSeconds: 0,
    ended: false,
    stated: { units: null, plane: false, distance: false, feedMode: false, workOffset: false },
  };
}

export function mmPerUnit(controller: Controller): number {
  return controller.inch ? 25.4 : 1;
}

/** Where the program's zero stands along an axis. */
export function originOf(controller: Controller, axis: Axis): number {
  return controller.systems[controller.system]![axis] + controller.shift[axis];
}

/** Moves the tip in a straight line or along `arc`; a feed of 0 is a rapid. */
export function travel(
  controller: Controller,
  emit: Emit,
  to: Position,
  feed: number,
  arc: Turn | null = null,
): void {
  const from = controller.position;
  controller.position = to;
  emit({
    line: controller.line,
    kind: feed === 0 ? "rapid" : "feed",
    from,
    to,
    arc,
    feed,
    spindle: controller.spindle,
    rpm: controller.spindle === "off" ? 0 : controller.rpm,
    cutter: controller.cutter,
  });
}
