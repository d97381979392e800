import type { Machine } from "@dryfit/gcode";
import type { Assembly } from "@dryfit/joinery";
import type { Layout } from "@dryfit/nest";
import type { Proof, ReadProgram } from "@dryfit/verify";
import type { Shop } from "./input.ts";
import { type Road, type WrittenProgram, yieldOf } from "./road.ts";

/** What a person may look at beside the files, as far as the road went. Plain data: it can be posted to a page. */
export interface Shown {
  readonly assembly: Assembly;
  /** Empty where the design cannot be laid out. */
  readonly layout: Layout;
  /** By sheet: the share that lies within parts. */
  readonly yields: Readonly<Record<string, number>>;
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

export function shownOf(road: Road, { machine }: Shop, proof: Proof | null): Shown {
  const { name, travel, zZero, safeHeight, bedAllowance } = machine;
  const { assembly, layout, flips } = road;
  return {
    assembly,
    layout,
    yields: Object.fromEntries(layout.sheets.map((sheet) => [sheet.id, yieldOf(sheet, assembly.parts)])),
    flips,
    programs: proof
      ? road.programs.map((program) => ({ ...program, read: readOf(proof, program.file) }))
      : [],
    machine: { name, travel, zZero, safeHeight, bedAllowance },
    proof: proof && withoutPrograms(proof),
  };
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
