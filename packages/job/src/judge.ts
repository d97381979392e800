import { type DxfReading, judgeDxf, readDxf } from "@dryfit/dxf";
import { defaultMachine } from "@dryfit/gcode";
import type { Finding } from "@dryfit/joinery";
import { checkProgram, type ReadProgram, readProgram } from "@dryfit/verify";
import type { OutFile } from "./outfile.ts";
import { machineFacts } from "./proving.ts";

/** What a program file leaves unsaid, mm. */
export interface BareSheet {
  readonly size: readonly [number, number];
  readonly thickness: number;
  readonly zZero: "bed" | "top";
  readonly cutterDiameter: number;
}

/** A program from anywhere, read and judged as dryfit's own are: on the shipped machine, on a fresh sheet. */
export function judgeProgram(
  { file, text }: OutFile,
  { size, thickness, zZero, cutterDiameter }: BareSheet,
): { readonly read: ReadProgram; readonly findings: readonly Finding[] } {
  const used = new Set(readProgram(text).motions.map(({ cutter }) => cutter));
  // One width for all: which cutters its numbers mean, nobody said.
  const cutters = [...used].map((number) => ({
    number,
    id: `${cutterDiameter} mm`,
    kind: "straight",
    diameter: cutterDiameter,
    // Nobody said how long its flutes are.
    fluteLength: Number.POSITIVE_INFINITY,
    shankDiameter: cutterDiameter,
    maxRpm: Number.POSITIVE_INFINITY,
  }));
  const program = {
    file,
    text,
    sheet: "sheet",
    setup: "A" as const,
    zZero,
    cutters,
    tabs: [],
    corners: [],
    skin: null,
  };
  const stock = {
    id: "sheet",
    material: "",
    size,
    outline: null,
    grain: "x" as const,
    count: 1,
    price: null,
    keepOuts: [],
  };
  return checkProgram(program, {
    sheet: { id: "sheet", stock, parts: [] },
    thickness: { min: thickness, mean: thickness, max: thickness },
    machine: machineFacts(defaultMachine()),
  });
}

/** A drawing from anywhere, read and judged as a cutting service would. */
export function judgeDrawing({ file, text }: OutFile): {
  readonly reading: DxfReading;
  readonly findings: readonly Finding[];
} {
  return { reading: readDxf(text, file), findings: judgeDxf(text, { file }) };
}
