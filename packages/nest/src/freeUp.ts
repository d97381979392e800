import { type Arrangement, resultFrom, sheetsOf } from "./arrange.ts";
import { type Budget, sliceOf } from "./budget.ts";
import type { NestJob, Sheet } from "./layout.ts";
import { packingOf, refresh, type Snapshot, snapshot } from "./packing.ts";
import { problemOf } from "./problem.ts";
import { polygonArea } from "./ring.ts";
import { rngFrom } from "./rng.ts";
import { type SheetsResult, seatAt } from "./sheets.ts";
import { type Axis, lengthUsed, setLength, shrink } from "./shrink.ts";

/**
 * Pushes the parts of the emptiest sheet together, to the left or down, whichever leaves the larger rectangle:
 * the offcut that goes back on the shelf.
 */
export function freeUp(
  job: NestJob,
  arrangement: Arrangement,
  sheets: readonly Omit<Sheet, "id">[],
  budget: Budget,
): { sheets: readonly Omit<Sheet, "id">[]; steps: number } {
  const whole = resultFrom(arrangement, sheets);
  const target = emptiest(arrangement, whole);
  if (target < 0) return { sheets, steps: 0 };
  const alongX = squeezeSheet(job, arrangement, whole, target, "x", sliceOf(budget, 0, 0, 0.5));
  const alongY = squeezeSheet(job, arrangement, whole, target, "y", sliceOf(budget, alongX.steps, 0.5, 1));
  const best = alongX.freed >= alongY.freed ? alongX : alongY;
  const spots = whole.spots.map((spot) => best.spots.get(spot.item) ?? spot);
  return { sheets: sheetsOf(arrangement, { ...whole, spots }), steps: alongX.steps + alongY.steps };
}

/** The sheet with the least wood used; −1 where there is none. */
function emptiest({ job }: Arrangement, { sheets, spots }: SheetsResult): number {
  const areas = job.types.map((type) => polygonArea(type.polygon));
  const used = sheets.map(() => 0);
  for (const spot of spots) used[spot.sheet]! += areas[job.items[spot.item]!]!;
  return used.reduce((best, area, k) => (best < 0 || area < used[best]! ? k : best), -1);
}

function squeezeSheet(
  { seed }: NestJob,
  { job }: Arrangement,
  whole: SheetsResult,
  sheet: number,
  axis: Axis,
  budget: Budget,
): { spots: Map<number, SheetsResult["spots"][number]>; freed: number; steps: number } {
  const own = whole.spots.filter((spot) => spot.sheet === sheet);
  const { bin } = job.kinds[whole.sheets[sheet]!]!;
  const items = own.map((spot) => job.items[spot.item]!);
  const problem = problemOf({ ...job, items, bins: [bin] });
  const p = packingOf(problem);
  for (const [i, spot] of own.entries()) seatAt(p, i, job.types[items[i]!]!, spot, 0);
  for (let i = 0; i < p.n; i++) refresh(p, i);
  let best: Snapshot = snapshot(p);
  // Noise must not make the layout stick out of its own length.
  setLength(p, axis, lengthUsed(p, axis) + 1e-9);
  shrink(p, axis, budget, rngFrom(seed), () => {
    best = snapshot(p);
  });
  const [long, across] =
    axis === "x" ? [bin.x1 - bin.x0, bin.y1 - bin.y0] : [bin.y1 - bin.y0, bin.x1 - bin.x0];
  const spots = new Map(
    own.map(({ item }, i) => {
      const shape = problem.shapes[best.shape[i]!]!;
      return [item, { item, sheet, turn: shape.turn, x: best.x[i]!, y: best.y[i]! }] as const;
    }),
  );
  return { spots, freed: (long - lengthUsed(p, axis)) * across, steps: p.steps };
}
