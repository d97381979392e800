import { type Cutter, type CuttingData, cuttingData } from "@dryfit/gcode";
import { type Design, type Explanation, explain } from "@dryfit/joinery";
import { type JobInput, readInput } from "./input.ts";
import type { PlacedFinding } from "./job.ts";
import { cuttersFor } from "./road.ts";

export interface Explained {
  readonly ok: true;
  /** The design with every default filled in, mm. */
  readonly design: Design;
  /** Every derived number as a sum. */
  readonly numbers: readonly Explanation[];
  /** How each cutter's speed, feeds and depth came about, in a full slot as deep as the sheet. */
  readonly cutting: readonly { readonly cutter: Cutter; readonly data: CuttingData }[];
}

/** How every figure of a job came about; or why its files cannot be read. */
export function explainJob(
  input: JobInput,
): Explained | { readonly ok: false; readonly findings: readonly PlacedFinding[] } {
  const shop = readInput(input);
  if (!("design" in shop)) return { ok: false, findings: shop };
  const { design, machine } = shop;
  const depth = design.sheet.thickness.mean;
  return {
    ok: true,
    design,
    numbers: explain(design),
    cutting: cuttersFor(design, shop.cutters).map((cutter) => ({
      cutter,
      data: cuttingData(cutter, machine, "plywood", {
        kind: cutter.kind === "drill" ? "drilling" : "slot",
        depth,
      }),
    })),
  };
}
