import { type Machine, screwPlaces } from "@dryfit/gcode";
import type { Point } from "@dryfit/geometry";
import type { Assembly } from "@dryfit/joinery";
import { type Layout, type Offcut, offcutsOf } from "@dryfit/nest";
import type { Proof, ReadProgram } from "@dryfit/verify";
import type { Shop } from "./input.ts";
import { nestJob, type Road, type WrittenProgram, yieldOf } from "./road.ts";

/** What a person may look at beside the files, as far as the road went. Plain data: it can be posted to a page. */
export interface Shown {
  readonly assembly: Assembly;
  /** Empty where the design cannot be laid out. */
  readonly layout: Layout;
  /** By sheet: the share that lies within parts. */
  readonly yields: Readonly<Record<string, number>>;
  /** What can be kept of every sheet, largest first. */
  readonly offcuts: readonly Offcut[];
  readonly flips: Road["flips"];
  /** With their texts as read back. Empty where none could be written. */
  readonly programs: readonly ShownProgram[];
  readonly machine: Pick<Machine, "name" | "travel" | "zZero" | "safeHeight" | "bedAllowance">;
  /** Null where there was nothing to prove. */
  readonly proof: Omit<Proof, "programs"> | null;
}

export interface ShownProgram extends WrittenProgram {
  readonly read: ReadProgram;
}

export function shownOf(road: Road, { machine, design }: Shop, proof: Proof | null): Shown {
  const { name, travel, zZero, safeHeight, bedAllowance } = machine;
  const { assembly, layout, flips } = road;
  return {
    assembly,
    layout,
    yields: Object.fromEntries(layout.sheets.map((sheet) => [sheet.id, yieldOf(sheet, assembly.parts)])),
    offcuts: offcutsOf(nestJob(design, assembly.parts, []), layout),
    flips,
    programs: proof
      ? road.programs.map((program) => ({ ...program, read: readOf(proof, program.file) }))
      : [],
    machine: { name, travel, zZero, safeHeight, bedAllowance },
    proof: proof && withoutPrograms(proof),
  };
}

/** By sheet: where screws may hold it down, clear of every cutter's way. Worked out when asked: it takes a while. */
export function screwsOf({ layout, assembly }: Shown): Readonly<Record<string, readonly Point<"sheet">[]>> {
  return Object.fromEntries(layout.sheets.map((sheet) => [sheet.id, screwPlaces(sheet, assembly.parts)]));
}

function readOf(proof: Proof, file: string): ReadProgram {
  const found = proof.programs.find((program) => program.file === file);
  if (!found) throw new RangeError(`${file} was not read`);
  return found.read;
}

/** They stand beside the texts that they were read from. */
function withoutPrograms({ programs: _, ...proof }: Proof): Omit<Proof, "programs"> {
  return proof;
}
