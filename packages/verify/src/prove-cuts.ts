import { once } from "@dryfit/geometry";
import type { Finding, Thickness } from "@dryfit/joinery";
import { checkCleared } from "./check/cleared.ts";
import { checkInOrder } from "./check/in-order.ts";
import { checkKeepOuts } from "./check/keep-outs.ts";
import { checkOnMachine } from "./check/on-machine.ts";
import { checkPins } from "./check/pins.ts";
import type { CutPart } from "./cut-part.ts";
import type { ReadProgram } from "./program/read-program.ts";
import type { EngagementFound, JobToProve, PartProof, ProgramFile } from "./proof.ts";
import { type PartJudged, provePart } from "./prove-part.ts";
import { cutsOf, type SheetCuts } from "./sheet-cuts.ts";

/** What the programs of a job cut, and what is wrong with it. */
export interface CutProof {
  /** Every placed part, in the order of sheets and places. */
  readonly perPart: readonly PartProof[];
  readonly findings: readonly Finding[];
  readonly setupsApart: Readonly<Record<string, number>>;
  /** Where a limit to the engagement was asked for, the most that was found. */
  readonly engagements: readonly EngagementFound[];
  /** The programs as read, in the job's order. */
  readonly programs: readonly { readonly file: string; readonly read: ReadProgram }[];
  /** The parts as cut from sheets of their least, mean or greatest thickness. */
  readonly cutPartsAt: (reading: keyof Thickness) => readonly CutPart[];
}

/** Parts of a job that have been judged already. */
export type PartsJudged = ReadonlyMap<string, PartJudged>;

/**
 * Reads the programs and removes what they remove, part by part.
 *
 * Gouge and uncut are judged on sheets of mean thickness, for which the design's depths hold; whether cuts
 * go through, on the thickest reading. Parts in `known` are not judged again.
 */
export function proveCuts(job: JobToProve, known: PartsJudged = NONE): CutProof {
  const { programs, sheets } = cutsOf(job);
  const proofs = sheets.map((sheet) => proveSheet(sheet, known));
  const cleared = checkCleared(job, programs);
  return {
    perPart: proofs.flatMap(({ parts }) => parts.map(({ proof }) => proof)),
    findings: [
      ...programs.flatMap(({ read }) => read.findings),
      ...proofs.flatMap(({ findings }) => findings),
      ...cleared.findings,
      ...unplaced(job),
      ...homeless(job),
    ],
    setupsApart: Object.fromEntries(
      proofs.flatMap(({ apart }, i) => (apart === null ? [] : [[sheets[i]!.sheet.id, apart]])),
    ),
    engagements: cleared.engagements,
    programs: programs.map(({ program, read }) => ({ file: program.file, read })),
    cutPartsAt: (reading) => proofs.flatMap(({ parts }) => parts.map(({ cut }) => cut(reading))),
  };
}

const NONE: PartsJudged = new Map();

interface SheetProof {
  readonly parts: readonly PartJudged[];
  readonly apart: number | null;
  readonly findings: readonly Finding[];
}

function proveSheet(cuts: SheetCuts, known: PartsJudged): SheetProof {
  const { sheet, placed, flip, strokes } = cuts;
  const parts = placed.map((one) => known.get(one.part.id) ?? provePart(one, cuts));
  const twice = placed
    .filter((_, i) => parts[i]!.twice)
    .map(({ part, placement }) => ({ part, sheetFromPanel: placement }));
  const thickness = placed[0]!.part.thickness.mean;
  const pins = flip === undefined ? NO_PINS : checkPins({ sheet, flip, strokes, parts: twice, thickness });
  return {
    parts,
    apart: pins.apart,
    findings: [...checkSheet(cuts), ...pins.findings, ...parts.flatMap(({ findings }) => findings)],
  };
}

/** What a sheet's programs do wrong, whatever parts lie on it: looked at once. */
export const checkSheet: (cuts: SheetCuts) => readonly Finding[] = once((cuts: SheetCuts) => {
  const { sheet, flip, runs, stroked, mounted, files } = cuts;
  return [
    ...mounted.flatMap(({ findings }) => findings),
    ...runs.flatMap(checkOnMachine),
    ...runs.flatMap((run) => checkKeepOuts(run, sheet, flip)),
    ...unturned(files, flip),
    ...checkInOrder(sheet, stroked, flip),
  ];
});

const NO_PINS = { apart: null, findings: [] };

function unplaced({ assembly, sheets }: JobToProve): Finding[] {
  const placed = new Set(sheets.flatMap((sheet) => sheet.parts.map(({ part }) => part)));
  return assembly.parts
    .filter(({ id }) => !placed.has(id))
    .map(({ id, title }) => ({
      code: "part_not_placed",
      severity: "error",
      path: id,
      message: `${title} lies on no sheet: nothing cuts it.`,
      numbers: {},
    }));
}

function homeless({ programs, sheets }: JobToProve): Finding[] {
  const known = new Set(sheets.map(({ id }) => id));
  return programs
    .filter(({ sheet }) => !known.has(sheet))
    .map(({ file, sheet }) => ({
      code: "unknown_sheet",
      severity: "error",
      path: file,
      message: `The program is for ${sheet}, which the layout does not hold.`,
      numbers: {},
    }));
}

function unturned(
  programs: readonly ProgramFile[],
  flip: JobToProve["flips"][string] | undefined,
): Finding[] {
  if (flip !== undefined) return [];
  return programs
    .filter(({ setup }) => setup === "B")
    .map(({ file }) => ({
      code: "flip_missing",
      severity: "error",
      path: file,
      message: "The program cuts the other face, but nothing says how the sheet is turned over.",
      numbers: {},
    }));
}
