import type { BareSheet, OutFile, Shown } from "@dryfit/job";
import type { Finding } from "@dryfit/joinery";
import type { Motion, ReadProgram } from "@dryfit/verify";
import type { Tooling } from "./replay.ts";
import { inProgram } from "./worst.ts";

/** A program as it is watched: its text as read, the sheet it cuts, and what was cut before it. mm. */
export interface CutProgram {
  readonly file: string;
  readonly lines: readonly string[];
  readonly read: ReadProgram;
  readonly findings: readonly Finding[];
  /** "sheet-1, face A up". */
  readonly place: string;
  readonly face: "A" | "B";
  /** The sheet's lower left corner in the program's frame, and its size. */
  readonly corner: readonly [number, number];
  readonly size: readonly [number, number];
  readonly thickness: number;
  readonly grain: "x" | "y";
  readonly zZero: "bed" | "top";
  readonly tooling: Tooling;
  readonly cutters: readonly { readonly kind: string; readonly diameter: number }[];
  readonly diameterOf: (motion: Motion) => number;
  /** As the program's maker reckons it, with acceleration; null where nobody did. */
  readonly minutes: number | null;
  readonly before: readonly CutBefore[];
}

/** Motions of an earlier program, laid into the frame of this one. */
export interface CutBefore {
  readonly motions: readonly Motion[];
  readonly tooling: Tooling;
  /** Whether it cut the face that is up now, or the one that lies down. */
  readonly side: "up" | "down";
}

type ShownProgram = Shown["programs"][number];
type Flip = Shown["flips"][string];

/** The programs of a job, in the order in which they are cut. */
export function programsOf(shown: Shown, findings: readonly Finding[]): readonly CutProgram[] {
  return shown.programs.map((program, index) => {
    const { file, sheet, setup, zZero, read, text, cutters, minutes } = program;
    const flip = setup === "B" ? shown.flips[sheet] : undefined;
    const { stock, parts } = shown.layout.sheets.find(({ id }) => id === sheet)!;
    const thickness = shown.assembly.parts.find(({ id }) => id === parts[0]?.part)?.thickness.mean ?? 0;
    const [a, b] = [
      { x: 0, y: 0 },
      { x: stock.size[0], y: stock.size[1] },
    ].map((p) => inProgram(p, flip));
    return {
      file,
      lines: linesOf(text),
      read,
      findings: findings.filter(({ path }) => path === file || path.startsWith(`${file}:`)),
      place: `${sheet}, face ${setup} up`,
      face: setup,
      corner: [Math.min(a!.x, b!.x), Math.min(a!.y, b!.y)],
      size: stock.size,
      thickness,
      grain: stock.grain,
      zZero,
      tooling: toolingOf(program, thickness),
      cutters,
      diameterOf: (motion) => cutterOf(program, motion)?.diameter ?? 0,
      minutes,
      before: shown.programs
        .slice(0, index)
        .filter((earlier) => earlier.sheet === sheet)
        .map((earlier) => beforeOf(earlier, setup, shown.flips[sheet], thickness)),
    };
  });
}

/** A program from anywhere, on the sheet that it was judged on. */
export function bareProgram(
  { file, text }: OutFile,
  read: ReadProgram,
  findings: readonly Finding[],
  { size, thickness, zZero, cutterDiameter }: BareSheet,
): CutProgram {
  return {
    file,
    lines: linesOf(text),
    read,
    findings,
    place: "a sheet of its own",
    face: "A",
    corner: [0, 0],
    size,
    thickness,
    grain: "x",
    zZero,
    tooling: { radiusOf: () => cutterDiameter / 2, depthOf: depthOf(zZero, thickness) },
    cutters: [{ kind: "straight", diameter: cutterDiameter }],
    diameterOf: () => cutterDiameter,
    minutes: null,
    before: [],
  };
}

/** As the strict reader counts them. */
export function linesOf(text: string): readonly string[] {
  return text.split(/\r\n|\n|\r/);
}

/** What a shaped cutter takes off an edge is no matter of depth: it is not shown. */
export function isShaped({ kind }: { readonly kind: string }): boolean {
  return kind === "round-over" || kind === "v";
}

function beforeOf(
  earlier: ShownProgram,
  setup: "A" | "B",
  flip: Flip | undefined,
  thickness: number,
): CutBefore {
  const tooling = toolingOf(earlier, thickness);
  if (earlier.setup === setup) return { motions: earlier.read.motions, tooling, side: "up" };
  return { motions: earlier.read.motions.map((motion) => laidOver(motion, flip)), tooling, side: "down" };
}

function toolingOf(program: ShownProgram, thickness: number): Tooling {
  return {
    radiusOf: (motion) => {
      const cutter = cutterOf(program, motion);
      return !cutter || isShaped(cutter) ? 0 : cutter.diameter / 2;
    },
    depthOf: depthOf(program.zZero, thickness),
  };
}

function depthOf(zZero: "bed" | "top", thickness: number): (z: number) => number {
  return zZero === "bed" ? (z) => thickness - z : (z) => -z;
}

function cutterOf(
  { cutters }: ShownProgram,
  { cutter }: Motion,
): ShownProgram["cutters"][number] | undefined {
  return cutters.find(({ number }) => number === cutter) ?? cutters[0];
}

function laidOver(motion: Motion, flip: Flip | undefined): Motion {
  const { from, to, arc } = motion;
  return {
    ...motion,
    from: inProgram(from, flip),
    to: inProgram(to, flip),
    arc: arc && { ...arc, centre: inProgram(arc.centre, flip), sweep: -arc.sweep },
  };
}
