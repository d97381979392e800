import { boundsOf, CUT_MM, inverse } from "@dryfit/geometry";
import type { Finding, Part, Thickness } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { checkCleared } from "./check/cleared.ts";
import { checkInOrder } from "./check/in-order.ts";
import { checkKeepOuts } from "./check/keep-outs.ts";
import { checkOnMachine, type Run } from "./check/on-machine.ts";
import { checkPins } from "./check/pins.ts";
import { type Allowances, allowancesFor, stepsOf } from "./cut/allowed.ts";
import { asCut } from "./cut/as-cut.ts";
import { type Bench, benchOf } from "./cut/bench.ts";
import { deepest } from "./cut/deepest.ts";
import { designed } from "./cut/designed.ts";
import { isShaped } from "./cut/edge-profile.ts";
import { checkEdges, type EdgeBench } from "./cut/edges.ts";
import { gougesOf } from "./cut/gouge.ts";
import { boxOfSegment, grown, touch } from "./cut/grid.ts";
import { placeSegment, type Stroke, strokesOf } from "./cut/stroke.ts";
import { uncutOf } from "./cut/uncut.ts";
import { gougeFinding, uncutFindings } from "./cut-findings.ts";
import type { CutPart } from "./cut-part.ts";
import { mountedCutters } from "./mounted-cutters.ts";
import { type ReadProgram, readProgram } from "./program/read-program.ts";
import type { CutterFacts, EngagementFound, JobToProve, PartProof, ProgramFile } from "./proof.ts";

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

/**
 * Reads the programs and removes what they remove, part by part.
 *
 * Gouge and uncut are judged on sheets of mean thickness, for which the design's depths hold; whether cuts
 * go through, on the thickest reading.
 */
export function proveCuts(job: JobToProve): CutProof {
  const parts = new Map(job.assembly.parts.map((part) => [part.id, part]));
  const programs = job.programs.map((program) => ({
    program,
    read: readProgram(program.text, { file: program.file, dwellUnit: job.machine.dwellUnit }),
  }));
  const cleared = checkCleared(job, programs);
  const sheets = job.sheets.map((sheet) =>
    proveSheet(
      job,
      sheet,
      parts,
      programs.filter(({ program }) => program.sheet === sheet.id),
    ),
  );
  const benches = sheets.flatMap((sheet) =>
    sheet.benches.map(({ bench, allowed }) => ({ part: bench.part, cutFrom: asCut(bench, allowed) })),
  );
  return {
    perPart: sheets.flatMap((sheet) => sheet.perPart),
    findings: [
      ...programs.flatMap(({ read }) => read.findings),
      ...sheets.flatMap((sheet) => sheet.findings),
      ...cleared.findings,
      ...unplaced(job),
      ...homeless(job),
    ],
    setupsApart: Object.fromEntries(
      sheets.flatMap(({ apart }, i) => (apart === null ? [] : [[job.sheets[i]!.id, apart]])),
    ),
    engagements: cleared.engagements,
    programs: programs.map(({ program, read }) => ({ file: program.file, read })),
    cutPartsAt: (reading) => benches.map(({ part, cutFrom }) => cutFrom(part.thickness[reading])),
  };
}

interface SheetProof {
  readonly perPart: readonly PartProof[];
  readonly apart: number | null;
  readonly findings: readonly Finding[];
  readonly benches: readonly { readonly bench: Bench; readonly allowed: Allowances }[];
}

function proveSheet(
  job: JobToProve,
  sheet: Sheet,
  parts: ReadonlyMap<string, Part>,
  programs: readonly { readonly program: ProgramFile; readonly read: ReadProgram }[],
): SheetProof {
  const placed = sheet.parts.flatMap(({ part, placement }) => {
    const known = parts.get(part);
    return known === undefined ? [] : [{ part: known, placement }];
  });
  const first = placed[0];
  if (first === undefined) return { perPart: [], apart: null, findings: [], benches: [] };
  const { thickness } = first.part;
  const flip = job.flips[sheet.id];
  const mounted = programs.map(({ program, read }) => mountedCutters(program, read));
  const runs = programs.map(({ program, read }, i): Run => {
    const { cutterOf } = mounted[i]!;
    return { program, read, machine: job.machine, thickness, cutterOf, pins: flip?.pins };
  });
  const stroked = runs.map((run) => {
    const all = strokesOf(run.program, run.read.motions, run.cutterOf, flip);
    return {
      run,
      strokes: all.filter(({ cutter }) => isCylindrical(cutter)),
      shaped: all.filter(({ cutter }) => isShaped(cutter)),
    };
  });
  const shaped = stroked.flatMap((each) => each.shaped);
  const strokes = deepest(stroked.flatMap((each) => each.strokes));
  const proofs = placed.map(({ part, placement }) =>
    provePart(
      benchOf(part, { sheet, sheetFromPanel: placement }, strokes),
      shapedNear(part, placement, shaped),
      programs.map(({ program }) => program),
    ),
  );
  const twice = proofs.flatMap(({ bench: { part, sheetFromPanel, strokes: own } }) =>
    new Set(own.map(({ program }) => program.setup)).size === 2 ? [{ part, sheetFromPanel }] : [],
  );
  const pins =
    flip === undefined
      ? NO_PINS
      : checkPins({ sheet, flip, strokes, parts: twice, thickness: thickness.mean });
  return {
    perPart: proofs.map(({ proof }) => proof),
    apart: pins.apart,
    benches: proofs,
    findings: [
      ...mounted.flatMap(({ findings }) => findings),
      ...runs.flatMap(checkOnMachine),
      ...runs.flatMap((run) => checkKeepOuts(run, sheet, flip)),
      ...unturned(programs, flip),
      ...checkInOrder(sheet, stroked, flip),
      ...pins.findings,
      ...proofs.flatMap(({ findings }) => findings),
    ],
  };
}

const NO_PINS = { apart: null, findings: [] };

function shapedNear(
  part: Part,
  sheetFromPanel: Bench["sheetFromPanel"],
  strokes: readonly Stroke[],
): EdgeBench {
  const panelFromSheet = inverse(sheetFromPanel);
  const box = boundsOf(part.outline);
  const near = strokes.flatMap((stroke) => {
    const path = placeSegment(panelFromSheet, stroke.path);
    return touch(grown(boxOfSegment(path), stroke.radius), box) ? [{ ...stroke, path }] : [];
  });
  return { part, sheetFromPanel, strokes: near };
}

function provePart(bench: Bench, edges: EdgeBench, programs: readonly ProgramFile[]) {
  const { part } = bench;
  const { mean, max } = part.thickness;
  const allowed = allowancesFor(bench, programs);
  const storeys = designed(part, stepsOf(allowed, mean));
  const gouges = gougesOf(bench, storeys, mean);
  const uncuts = uncutOf(bench, storeys, allowed, mean);
  const last = storeys.at(-1);
  // A cut that goes through the mean thickness may not go through the greatest.
  const short =
    max > mean && last !== undefined
      ? uncutOf(bench, [{ ...last, from: last.from + max - mean, to: max }], allowed, max)
      : [];
  const wrong = uncuts.filter(tooWide);
  const gouge = worst(gouges);
  const uncut = worst(uncuts);
  const proof: PartProof = {
    part: part.id,
    gouge: gouge?.width ?? 0,
    gougeAt: gouge?.at ?? null,
    uncut: uncut?.width ?? 0,
    uncutAt: uncut?.atSheet ?? null,
  };
  return {
    bench,
    allowed,
    proof,
    findings: [
      ...gouges.filter(tooWide).map((each) => gougeFinding(bench, each)),
      ...uncutFindings(bench, wrong, allowed, mean),
      ...checkEdges(edges, storeys, programs),
      ...(wrong.length > 0 ? [] : uncutFindings(bench, short.filter(tooWide), allowed, max)),
    ],
  };
}

/** What shaped cutters take off is no deviation of the panel: `checkEdges` judges it. */
function isCylindrical(cutter: CutterFacts): boolean {
  return cutter.diameter > 0 && !isShaped(cutter);
}

interface Wide {
  readonly width: number;
}

const tooWide = ({ width }: Wide): boolean => width > CUT_MM;

function worst<T extends Wide>(list: readonly T[]): T | null {
  return list.reduce<T | null>((a, b) => (a === null || b.width > a.width ? b : a), null);
}

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
  programs: readonly { readonly program: ProgramFile }[],
  flip: JobToProve["flips"][string] | undefined,
): Finding[] {
  if (flip !== undefined) return [];
  return programs
    .filter(({ program }) => program.setup === "B")
    .map(({ program }) => ({
      code: "flip_missing",
      severity: "error",
      path: program.file,
      message: "The program cuts the other face, but nothing says how the sheet is turned over.",
      numbers: {},
    }));
}
