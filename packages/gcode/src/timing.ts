import { cosine, sine } from "@dryfit/geometry";
import { type AirProgram, airProgram } from "./air.ts";
import type { Machine, Timing } from "./machine.ts";
import { motionsOf } from "./motion.ts";
import { machineStart, secondsOf } from "./time.ts";
import type { Move } from "./toolpath.ts";

/**
 * Two short programs that show with a stopwatch how this machine differs from its data sheet: "corners" is all
 * starting and stopping, so it tells the acceleration; "steps" is many tiny blocks, so it tells how fast they are read.
 */
export function timingPrograms(machine: Machine): Readonly<Record<"corners" | "steps", AirProgram>> {
  const about =
    (what: string) =>
    (seconds: number): readonly string[] => [
      `Timing of ${machine.name}: ${what}. Cuts nothing, the spindle stays off.`,
      `Moves within X 0 to ${REACH}, Y 0 to ${REACH}, at the height of rapids. Keep that room free.`,
      `Take the time from the first move to the last: ${seconds.toFixed(1)} seconds are expected.`,
    ];
  const program = (name: "corners" | "steps", what: string): AirProgram =>
    airProgram({
      file: `timing-${name}.nc`,
      header: about(what),
      moves: MOVES[name](machine),
      zShift: 0,
      machine,
    });
  return {
    corners: program("corners", "many starts and stops"),
    steps: program("steps", "many short blocks"),
  };
}

/** What a stopwatch said of them, seconds; null: not run. */
export interface Measured {
  readonly corners: number | null;
  readonly steps: number | null;
}

/**
 * The timing with which the estimate of both programs is what was measured; null where that cannot be, since
 * even without any inertia the machine would have needed longer, or hardly anything would be so slow.
 */
export function calibrated(machine: Machine, measured: Measured): Timing | null {
  const corners = estimateOf("corners", machine);
  const steps = estimateOf("steps", machine);
  let timing: Timing = machine.timing;
  // Each measure tells one value, and each value bears on both: a few rounds settle them.
  for (let round = 0; round < ROUNDS; round++) {
    if (measured.corners !== null) {
      const acceleration = solve(measured.corners, [LEAST_SHARE, MOST_SHARE], (share) =>
        corners({ ...timing, acceleration: share }),
      );
      if (acceleration === null) return null;
      timing = { ...timing, acceleration };
    }
    if (measured.steps !== null) {
      const blockSeconds = solve(measured.steps, [0, MOST_BLOCK_SECONDS], (seconds) =>
        steps({ ...timing, blockSeconds: seconds }),
      );
      if (blockSeconds === null) return null;
      timing = { ...timing, blockSeconds };
    }
  }
  return timing;
}

/** What the estimate says a timing program takes, by the timing. */
export function estimateOf(name: "corners" | "steps", machine: Machine): (timing: Timing) => number {
  const start = machineStart(machine);
  const motions = motionsOf(MOVES[name](machine), start, { controller: machine.controller, zShift: 0 });
  return (timing) => secondsOf(motions, { ...machine, timing }, start).reduce((a, b) => a + b, 0);
}

/** Room that both programs need along X and Y, mm. */
const REACH = 60;

/** The bounds of a machine file's `timing`. */
const [LEAST_SHARE, MOST_SHARE, MOST_BLOCK_SECONDS] = [0.01, 10, 1];

const ROUNDS = 3;

const MOVES: Readonly<Record<"corners" | "steps", (machine: Machine) => readonly Move[]>> = {
  // There and back along a fan of directions: every block starts and ends at rest.
  corners: ({ safeHeight: z, maxFeedMmPerMin }) => {
    const feed = maxFeedMmPerMin.xy;
    const fan = Array.from({ length: 60 }, (_, k): readonly Move[] => {
      const angle = ((k % 10) / 9) * (Math.PI / 2);
      const far = 20 + 40 * ((k % 3) / 2);
      return [
        { kind: "line", to: { x: far * cosine(angle), y: far * sine(angle), z }, feed },
        { kind: "line", to: { x: 0, y: 0, z }, feed },
      ];
    });
    return [{ kind: "rapid", to: { x: 0, y: 0, z } }, ...fan.flat()];
  },
  // Straight back and forth in fifths of a millimetre.
  steps: ({ safeHeight: z, maxFeedMmPerMin }) => {
    const step = 0.2;
    const there = Array.from({ length: REACH / step }, (_, k) => (k + 1) * step);
    const path = [...there, ...there.map((x) => REACH - x)];
    const all = Array.from({ length: 4 }, () => path).flat();
    return [
      { kind: "rapid", to: { x: 0, y: 0, z } },
      ...all.map((x): Move => ({ kind: "line", to: { x, y: 0, z }, feed: maxFeedMmPerMin.xy })),
    ];
  },
};

/** Where a monotone `seconds` is what was asked, by halving; null where the range does not hold it. */
function solve(
  asked: number,
  [low, high]: readonly [number, number],
  seconds: (value: number) => number,
): number | null {
  const rising = seconds(high) > seconds(low);
  const off = (value: number): number => (seconds(value) - asked) * (rising ? 1 : -1);
  if (off(low) > SLACK_SECONDS || off(high) < -SLACK_SECONDS) return null;
  let [a, b] = [low, high];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (a + b) / 2;
    if (off(middle) < 0) a = middle;
    else b = middle;
  }
  // Rounded as a person would write it into the file.
  return Number(((a + b) / 2).toPrecision(4));
}

/** From 10 down to a ten-millionth. */
const HALVINGS = 30;

/** A stopwatch is no better than this, s. */
const SLACK_SECONDS = 0.3;
