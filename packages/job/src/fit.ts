import { readMachine } from "@dryfit/gcode";
import {
  couponTrials,
  type Design,
  type Explanation,
  explain,
  kerfTrials,
  type Read,
  readDesign,
  type Trial,
  withValue,
} from "@dryfit/joinery";
import type { PlacedFinding } from "./job.ts";
import { readService } from "./order/service.ts";
import type { OutFile } from "./outfile.ts";

/** What was found at the bench. Absent: not tried. */
export interface FitAnswers {
  /** The letter of the width and of the depth that fitted best. */
  readonly width?: string;
  readonly depth?: string;
  /** The letter of the laser's slot that took the sheet's edge. */
  readonly kerf?: string;
  /** The way of cutting whose plate was the better one: climb or conventional. */
  readonly direction?: string;
  /** Caliper readings of the sheet, mm. */
  readonly readings?: readonly number[];
}

export interface FitJob {
  readonly design: OutFile;
  /** The design as it was when the coupon was made; its letters are meant. Null where none was. */
  readonly coupon: OutFile | null;
  /** The service file that a kerf is written into; null where none was named. */
  readonly service?: OutFile | null;
  /** The machine file that a way of cutting is written into; null where none was named. */
  readonly machine?: OutFile | null;
  readonly answers: FitAnswers;
}

/** One figure of the file, before and after, as written. */
export interface FitChange {
  readonly file: string;
  readonly path: string;
  readonly before: string;
  readonly after: string;
}

export interface Fitted {
  readonly outcome: "made" | "unreadable";
  /** The design's text with the answers in it; null where something could not be read. */
  readonly text: string | null;
  /** The service's text with the kerf in it; null where no kerf was given. */
  readonly serviceText: string | null;
  /** The machine's text with the way of cutting in it; null where none was given. */
  readonly machineText: string | null;
  readonly changes: readonly FitChange[];
  /** What follows from them in the case: sums whose value is another now. */
  readonly follows: readonly { readonly before: Explanation; readonly after: Explanation }[];
  readonly findings: readonly PlacedFinding[];
}

/** The design with the coupon's answers in it, every other byte as it was; and which figures follow. */
export function fitDesign({ design, coupon, service = null, machine = null, answers }: FitJob): Fitted {
  const read = readDesign(design.text, design.file);
  const tried = coupon && readDesign(coupon.text, coupon.file);
  const laser = service && readService(service.text, service.file);
  const router = machine && readMachine(machine.text, machine.file);
  const problems = [read, tried, laser, router].flatMap((one) => (one ? unreadable(one) : []));
  if (!read.ok || (tried && !tried.ok) || (laser && !laser.ok) || (router && !router.ok))
    return refused(problems);
  const wrong = wrongAnswers(answers, tried?.ok ? tried.value : null, { service, machine });
  if (wrong.length > 0) return refused(wrong);

  const edits = editsFor(answers, read.value, tried?.ok ? tried.value : null);
  const text = edits.reduce<string | null>(
    (now, { path, after }) => now && withValue(now, path, after),
    design.text,
  );
  const after = text === null ? null : readDesign(text, design.file);
  if (text === null || !after?.ok) return refused([cannotEdit(design.file)]);
  const kerf = tried?.ok ? chosen(kerfTrials(tried.value), answers.kerf) : null;
  const serviceText = kerf && service ? withValue(service.text, "kerf.width", `${kerf.clearance} mm`) : null;
  if (kerf && service && serviceText === null) return refused([cannotEdit(service.file)]);
  const { direction } = answers;
  const machineText =
    direction === undefined || machine === null
      ? null
      : withValue(machine.text, "cutting.direction", direction.toLowerCase());
  if (direction !== undefined && machine && machineText === null) return refused([cannotEdit(machine.file)]);
  const before = new Map(explain(read.value).map((sum) => [sum.id, sum]));
  return {
    outcome: "made",
    text,
    serviceText,
    machineText,
    changes: [
      ...edits.map(({ path, before, after }) => ({ file: design.file, path, before, after: String(after) })),
      ...(kerf && service && laser?.ok
        ? [
            {
              file: service.file,
              path: "kerf.width",
              before: String(laser.value.kerf.width),
              after: String(kerf.clearance),
            },
          ]
        : []),
      ...(direction !== undefined && machine && router?.ok
        ? [
            {
              file: machine.file,
              path: "cutting.direction",
              before: router.value.cutting.direction,
              after: direction.toLowerCase(),
            },
          ]
        : []),
    ],
    follows: explain(after.value).flatMap((sum) => {
      const old = before.get(sum.id);
      return old && Math.abs(old.value - sum.value) > SAME ? [{ before: old, after: sum }] : [];
    }),
    findings: tried?.ok ? movedOn(read.value, tried.value) : [],
  };
}

/** Float noise of a sum. */
const SAME = 1e-9;

interface Edit {
  readonly path: string;
  readonly before: string;
  readonly after: number | readonly number[];
}

function editsFor(answers: FitAnswers, design: Design, tried: Design | null): readonly Edit[] {
  const { clearance } = design.joint;
  const trials = tried && couponTrials(tried);
  const width = trials && chosen(trials.widths, answers.width);
  const depth = trials && chosen(trials.depths, answers.depth);
  const perMm = design.units === "in" ? 1 / 25.4 : 1;
  const tidy = (mm: number): number => Number((mm * perMm).toFixed(5));
  return [
    ...(width ? [edit("joint.clearance.side", tidy(clearance.side), tidy(width.clearance))] : []),
    ...(depth ? [edit("joint.clearance.end", tidy(clearance.end), tidy(depth.clearance))] : []),
    ...(answers.readings
      ? [
          {
            path: "sheet.thickness",
            before: design.sheet.readings.map(tidy).join(", "),
            after: answers.readings.length === 1 ? tidy(answers.readings[0]!) : answers.readings.map(tidy),
          },
        ]
      : []),
  ];
}

function edit(path: string, before: number, after: number): Edit {
  return { path, before: String(before), after };
}

function chosen(trials: readonly Trial[], letter: string | undefined): Trial | null {
  return trials.find((trial) => trial.letter === letter?.toUpperCase()) ?? null;
}

function wrongAnswers(
  answers: FitAnswers,
  tried: Design | null,
  { service, machine }: Pick<FitJob, "service" | "machine">,
): readonly PlacedFinding[] {
  const trials = tried && { ...couponTrials(tried), kerfs: kerfTrials(tried) };
  const letters = (["width", "depth", "kerf"] as const).flatMap((what) => {
    const letter = answers[what];
    if (letter === undefined) return [];
    if (trials === null)
      return [
        problem(`--${what}`, `"${letter}" without a coupon`, "a letter of a coupon named with --coupon"),
      ];
    const list = { width: trials.widths, depth: trials.depths, kerf: trials.kerfs }[what];
    if (chosen(list, letter)) return [];
    const [first, last] = [list[0], list.at(-1)];
    const allowed =
      first && last
        ? `a letter from ${first.letter} to ${last.letter}`
        : "none: a layered case has no housings, its coupon tries the kerf";
    return [problem(`--${what}`, `"${letter}"`, allowed)];
  });
  const none = Object.values(answers).every((answer) => answer === undefined);
  return [
    ...letters,
    ...(answers.kerf !== undefined && !service
      ? [problem("--kerf", "no service file", "the file that holds the laser's kerf, with --service")]
      : []),
    ...(answers.direction !== undefined && !WAYS.test(answers.direction)
      ? [problem("--direction", `"${answers.direction}"`, "climb or conventional")]
      : []),
    ...(answers.direction !== undefined && !machine
      ? [problem("--direction", "no machine file", "the file that says which way to cut, with --machine")]
      : []),
    ...(none
      ? [
          problem(
            "answers",
            "nothing to change",
            "at least one of --width, --depth, --kerf, --direction, --readings",
          ),
        ]
      : []),
  ];
}

const WAYS = /^(climb|conventional)$/i;

/** Letters mean what they meant when the coupon was cut. */
function movedOn(design: Design, tried: Design): readonly PlacedFinding[] {
  const [now, then] = [design.joint.tongue, tried.joint.tongue];
  if (now.thickness === then.thickness && now.length === then.length) return [];
  return [
    {
      code: "coupon_of_another_tongue",
      severity: "warning",
      path: "joint.tongue",
      message: `The coupon tried a tongue of ${then.thickness} × ${then.length} mm; the design's is ${now.thickness} × ${now.length} mm by now.`,
      numbers: { triedThickness: then.thickness, triedLength: then.length, ...now },
      wayOut:
        "Air carries over from one tongue to another, but a coupon of this one would say so for certain.",
      at: null,
    },
  ];
}

function unreadable(read: Read<unknown>): readonly PlacedFinding[] {
  if (read.ok) return [];
  return read.problems.map(({ path, found, allowed, file, line, column }) => ({
    ...problem(path, found, allowed),
    at: { file, line, column },
  }));
}

function problem(path: string, found: string, allowed: string): PlacedFinding {
  return {
    code: "unreadable",
    severity: "error",
    path,
    message: `Found ${found}.`,
    wayOut: `Allowed: ${allowed}.`,
    numbers: {},
    at: null,
  };
}

function cannotEdit(file: string): PlacedFinding {
  return {
    code: "file_uneditable",
    severity: "error",
    path: file,
    message:
      "The answers could not be written into the file without changing more than them, or do not fit it.",
    wayOut: "Write them in by hand.",
    numbers: {},
    at: null,
  };
}

function refused(findings: readonly PlacedFinding[]): Fitted {
  return {
    outcome: "unreadable",
    text: null,
    serviceText: null,
    machineText: null,
    changes: [],
    follows: [],
    findings,
  };
}
