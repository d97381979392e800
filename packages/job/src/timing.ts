import {
  calibrated,
  type Machine,
  type Measured,
  readMachine,
  type Timing,
  timingPrograms,
} from "@dryfit/gcode";
import { withValue } from "@dryfit/joinery";
import { checkProgram } from "@dryfit/verify";
import { nameError } from "./air-programs.ts";
import { unreadable } from "./input.ts";
import type { PlacedFinding } from "./job.ts";
import type { OutFile } from "./outfile.ts";
import { machineFacts } from "./proving.ts";
import { SHIPPED_MACHINE } from "./shipped-shop.ts";

/** The timing programs of a machine, read back and judged. */
export interface TimingPrograms {
  readonly outcome: "made" | "cannot" | "unreadable";
  readonly programs: readonly (OutFile & { readonly seconds: number })[];
  readonly findings: readonly PlacedFinding[];
}

/** The machine file with what a stopwatch said in it. */
export interface Calibrated {
  readonly outcome: "made" | "cannot" | "unreadable";
  /** Every other byte as it was; null unless made. */
  readonly text: string | null;
  readonly before: Timing | null;
  readonly after: Timing | null;
  readonly findings: readonly PlacedFinding[];
}

/** Two programs to run with a stopwatch in the hand; `machine` null: the shipped one. */
export function timingOf(machine: OutFile | null): TimingPrograms {
  const file = machine ?? SHIPPED_MACHINE;
  const read = readMachine(file.text, file.file);
  if (!read.ok) return { outcome: "unreadable", programs: [], findings: read.problems.map(unreadable) };
  const programs = Object.values(timingPrograms(read.value));
  const findings = programs.flatMap((program) => judged(program, read.value));
  if (findings.length > 0) return { outcome: "cannot", programs: [], findings };
  return { outcome: "made", programs, findings };
}

/** The file with the timing under which the estimate of both programs is what was measured. */
export function calibratedJob(machine: OutFile, measured: Measured): Calibrated {
  const read = readMachine(machine.text, machine.file);
  if (!read.ok) return refused("unreadable", read.problems.map(unreadable));
  const before = read.value.timing;
  const after = calibrated(read.value, measured);
  if (after === null) return refused("cannot", [impossible(machine.file, read.value, measured)]);
  const text = (["acceleration", "blockSeconds"] as const).reduce<string | null>(
    (now, key) =>
      now === null || before[key] === after[key] ? now : withValue(now, `timing.${key}`, after[key]),
    machine.text,
  );
  const again = text === null ? null : readMachine(text, machine.file);
  if (text === null || !again?.ok || JSON.stringify(again.value.timing) !== JSON.stringify(after))
    return refused("unreadable", [cannotEdit(machine.file, after)]);
  return { outcome: "made", text, before, after, findings: [] };
}

/** On an empty bed of the machine's travel. */
function judged({ file, text }: OutFile, machine: Machine): readonly PlacedFinding[] {
  const { x, y } = machine.travel;
  const stock = {
    id: "bed",
    material: "",
    size: [x, y] as const,
    outline: null,
    grain: "x" as const,
    count: 1,
    price: null,
    keepOuts: [],
  };
  const program = {
    file,
    text,
    sheet: "bed",
    setup: "A" as const,
    zZero: "top" as const,
    cutters: [ANY_CUTTER],
    tabs: [],
    corners: [],
    skin: null,
  };
  const { findings } = checkProgram(program, {
    sheet: { id: "bed", stock, parts: [] },
    thickness: { min: 0, mean: 0, max: 0 },
    machine: machineFacts(machine),
  });
  return findings.filter(({ severity }) => severity === "error").map((finding) => ({ ...finding, at: null }));
}

/** Whatever is in the spindle: it stays in the air. */
const ANY_CUTTER = {
  number: 1,
  id: "any",
  kind: "straight",
  diameter: 1,
  fluteLength: 1,
  shankDiameter: 1,
  maxRpm: 1,
};

function impossible(file: string, machine: Machine, measured: Measured): PlacedFinding {
  const { corners, steps } = timingPrograms(machine);
  const of = (name: string, found: number | null, expected: number): string =>
    found === null ? "" : ` ${name}: ${found} s measured, ${expected.toFixed(1)} s expected.`;
  return nameError(
    "timing_impossible",
    file,
    `No acceleration and no reading speed make these times.${of("corners", measured.corners, corners.seconds)}${of("steps", measured.steps, steps.seconds)}`,
    "Take the time again, from the first move to the last; check rapidMmPerMin and maxFeedMmPerMin in the file, and that no feed override was on.",
  );
}

function cannotEdit(file: string, { acceleration, blockSeconds }: Timing): PlacedFinding {
  return nameError(
    "cannot_edit",
    file,
    `${file} is written in a way that cannot be edited without changing more.`,
    `Write it yourself: timing: { acceleration: ${acceleration}, blockSeconds: ${blockSeconds} }.`,
  );
}

function refused(outcome: "cannot" | "unreadable", findings: readonly PlacedFinding[]): Calibrated {
  return { outcome, text: null, before: null, after: null, findings };
}
