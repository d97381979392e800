import { OUTPUT_STEP_MM } from "@dryfit/geometry";
import type { Machine } from "./machine.ts";
import { endOfMotion, type Motion, motionsOf, writtenOut } from "./motion.ts";
import type { Move, Position } from "./toolpath.ts";
import { cornerSpeed, type Stretch, trapezoid, velocityPlan } from "./velocity.ts";

/** Minutes that the machine takes over `moves`, from rest at `start` to rest. */
export function minutesOf(
  moves: readonly Move[],
  machine: Machine,
  start: Position = machineStart(machine),
): number {
  const motions = motionsOf(moves, start, {
    controller: machine.controller,
    zShift: 0,
    mostDown: machine.maxFeedMmPerMin.z,
  });
  return sum(secondsOf(motions, machine, start)) / 60;
}

/** Seconds of every motion; between two stops the machine looks ahead over all of them. */
export function secondsOf(motions: readonly Motion[], machine: Machine, start: Position): readonly number[] {
  const seconds = new Array<number>(motions.length).fill(0);
  let [run, owners]: [Piece[], number[]] = [[], []];
  const settle = (): void => {
    travelled(run, machine).forEach((s, k) => {
      seconds[owners[k]!]! += s;
    });
    [run, owners] = [[], []];
  };
  let at = start;
  motions.forEach((motion, k) => {
    for (const block of motion.kind === "drill" ? writtenOut(motion, at, machine.controller) : [motion]) {
      if (block.kind === "dwell") {
        settle();
        seconds[k]! += block.seconds;
      }
      const piece = pieceOf(block, at, machine);
      if (piece !== null) {
        run.push(piece);
        owners.push(k);
      }
      at = endOfMotion(block, at);
    }
  });
  settle();
  return seconds;
}

/** Where a program finds the cutter: over the work zero at the height of rapids. */
export function machineStart(machine: Machine): Position {
  return { x: 0, y: 0, z: machine.safeHeight };
}

/** A line or an arc of the path: its speed limit and its directions at both ends. */
interface Piece {
  readonly length: number;
  readonly speed: number;
  readonly acceleration: number;
  readonly first: Direction;
  readonly last: Direction;
}

type Direction = readonly [x: number, y: number, z: number];

function travelled(run: readonly Piece[], machine: Machine): readonly number[] {
  const deviation = machine.controller.pathMode === "G61" ? OUTPUT_STEP_MM : machine.cornerDeviation;
  const path = run.map((piece, k): Stretch => {
    const before = run[k - 1];
    return {
      ...piece,
      cornerSpeed: before === undefined ? 0 : cornerBetween(before.last, piece.first, machine, deviation),
    };
  });
  const speeds = velocityPlan(path);
  return path.map(({ length, speed, acceleration }, k) => {
    const { seconds } = trapezoid(length, speed, acceleration, speeds[k]!, speeds[k + 1]!);
    return Math.max(seconds, machine.timing.blockSeconds);
  });
}

function cornerBetween(before: Direction, after: Direction, machine: Machine, deviation: number): number {
  const change: Direction = [after[0] - before[0], after[1] - before[1], after[2] - before[2]];
  const size = Math.hypot(...change);
  if (size === 0) return Number.POSITIVE_INFINITY;
  const acceleration = alongLimit(
    change.map((c) => c / size) as unknown as Direction,
    accelerations(machine),
  );
  const cosine = before[0] * after[0] + before[1] * after[1] + before[2] * after[2];
  return cornerSpeed(cosine, acceleration, deviation);
}

function pieceOf(motion: Motion, from: Position, machine: Machine): Piece | null {
  if (motion.kind !== "rapid" && motion.kind !== "line" && motion.kind !== "arc") return null;
  const limits = motion.kind === "rapid" ? machine.rapidMmPerMin : machine.maxFeedMmPerMin;
  const asked = motion.kind === "rapid" ? Number.POSITIVE_INFINITY : motion.feed / 60;
  const perSecond = { xy: limits.xy / 60, z: limits.z / 60 };
  const rise = motion.to.z - from.z;
  if (motion.kind !== "arc") {
    const [dx, dy] = [motion.to.x - from.x, motion.to.y - from.y];
    const length = Math.hypot(dx, dy, rise);
    if (length === 0) return null;
    const direction: Direction = [dx / length, dy / length, rise / length];
    return {
      length,
      speed: Math.min(asked, alongLimit(direction, perSecond)),
      acceleration: alongLimit(direction, accelerations(machine)),
      first: direction,
      last: direction,
    };
  }
  const radius = Math.hypot(motion.i, motion.j);
  const flat = radius * Math.abs(motion.sweep);
  const length = Math.hypot(flat, rise);
  const sense = Math.sign(motion.sweep);
  const tangent = (x: number, y: number): Direction => [
    (-sense * y * flat) / (radius * length),
    (sense * x * flat) / (radius * length),
    rise / length,
  ];
  const first = tangent(-motion.i, -motion.j);
  const last = tangent(motion.to.x - from.x - motion.i, motion.to.y - from.y - motion.j);
  const { xy } = accelerations(machine);
  return {
    length,
    speed: Math.min(asked, alongLimit(first, perSecond), (Math.sqrt(xy * radius) * length) / flat),
    acceleration: alongLimit(first, accelerations(machine)),
    first,
    last,
  };
}

function accelerations({ accelerationMmPerS2, timing }: Machine): { xy: number; z: number } {
  return { xy: accelerationMmPerS2.xy * timing.acceleration, z: accelerationMmPerS2.z * timing.acceleration };
}

/** The most along a unit direction, where X and Y together and Z have each their own limit. */
function alongLimit([x, y, z]: Direction, limits: { xy: number; z: number }): number {
  const flat = Math.hypot(x, y);
  return Math.min(
    flat > 0 ? limits.xy / flat : Number.POSITIVE_INFINITY,
    z !== 0 ? limits.z / Math.abs(z) : Number.POSITIVE_INFINITY,
  );
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
