import { type Cutter, type CuttingData, cuttingData } from "@dryfit/gcode";
import { type Design, type Explanation, explain, type FinishPlan, finishOf } from "@dryfit/joinery";
import { type JobInput, readInput } from "./input.ts";
import type { JobCleared, PlacedFinding } from "./job.ts";
import { clearedEntry } from "./proof-entries.ts";
import { cuttersFor, travel } from "./road.ts";

export interface Explained {
  readonly ok: true;
  /** The design with every default filled in, mm. */
  readonly design: Design;
  /** Every derived number as a sum. */
  readonly numbers: readonly Explanation[];
  /** How each cutter's speed, feeds and depth came about, in a full slot as deep as the sheet. */
  readonly cutting: readonly { readonly cutter: Cutter; readonly data: CuttingData }[];
  /** How each recess and opening is cleared as planned, by the programs that do it; none where it cannot be made. */
  readonly clearing: readonly JobCleared[];
  /** What goes on the wood, by the price file or common practice. */
  readonly finish: FinishPlan;
}

/** How every figure of a job came about; or why its files cannot be read. */
export function explainJob(
  input: JobInput,
): Explained | { readonly ok: false; readonly findings: readonly PlacedFinding[] } {
  const shop = readInput(input);
  if (!("design" in shop)) return { ok: false, findings: shop };
  const { design, machine } = shop;
  const depth = design.sheet.thickness.mean;
  const { programs, assembly } = travel(design, machine, shop.cutters, () => {});
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
    clearing: programs.flatMap(({ file, cleared }) => cleared.map((one) => clearedEntry(one, file, []))),
    finish: finishOf(assembly, shop.prices?.value ?? null),
  };
}
