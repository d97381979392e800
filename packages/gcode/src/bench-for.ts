import { inverse, type Loop, type Placement, placeCurve } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Known } from "./known.ts";
import type { Machine } from "./machine.ts";
import type { Bench, DataFor } from "./plan-build.ts";
import type { Direction, PlanOptions } from "./plan-options.ts";
import { minutesOf } from "./time.ts";

/** What holds for one setup of a sheet on which `parts` lie. */
export function benchFor(
  setupFromSheet: Placement<"setup", "sheet">,
  outlines: readonly Outline[],
  parts: readonly Part[],
  machine: Machine,
  data: DataFor,
  options: PlanOptions,
  known: Known,
): Bench {
  const { mean, max } = parts[0]?.thickness ?? { mean: 0, max: 0 };
  return {
    top: max - mean,
    underside: -mean,
    through: -mean - machine.bedAllowance,
    safe: machine.safeHeight,
    data,
    minutes: (moves, { x, y }) => minutesOf(moves, machine, { x, y, z: machine.safeHeight }),
    options,
    outlines: outlines.map(({ part, loop }) => ({ part, loop: placeCurve(setupFromSheet, loop) })),
    sheetFromSetup: inverse(setupFromSheet),
    known,
  };
}

/** The same setup for what is cut the other way. */
export function goingWay(bench: Bench, direction: Direction | undefined): Bench {
  return direction === undefined ? bench : { ...bench, options: { ...bench.options, direction } };
}

export interface Outline {
  readonly part: string;
  readonly loop: Loop<"sheet">;
}
