import type { Loop } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import { choicesFor } from "./choose-cutter.ts";
import { inShares, secondsOfChoice, withRoughing } from "./choose-rest.ts";
import { fewestCutters } from "./choose-set.ts";
import type { Cutter } from "./cutter.ts";
import type { Assigned } from "./order.ts";
import { type Bench, deepest } from "./plan-build.ts";
import type { PlanOptions } from "./plan-options.ts";
import type { Task } from "./plan-task.ts";

/** The cutters at hand: `roughers` are too wide for the corners as drawn, but may rough a recess all the same. */
export interface Drawer {
  readonly cutters: readonly Cutter[];
  readonly roughers: readonly Cutter[];
}

/**
 * The cutter, or the two cutters, that do each task; what no cutter can do is left out, and a finding says why.
 * `othersOf` gives the outlines around a task's part.
 */
export function assign(
  tasks: readonly Task[],
  { cutters, roughers }: Drawer,
  options: PlanOptions,
  benchOf: (task: Task) => Bench,
  othersOf: (task: Task) => readonly Loop[],
): { readonly assigned: readonly Assigned[]; readonly findings: readonly Finding[] } {
  const offers = tasks.map((task) => {
    const bench = benchOf(task);
    const around = { deep: deepest(task, bench), beyond: options.runOut, others: othersOf(task) };
    return { task, ...choicesFor(task, cutters, around, bench.known) };
  });
  const shared = withRoughing(offers, [...cutters, ...roughers], options, benchOf);
  const assigned = inShares(
    fewestCutters(shared, (task, choice) => secondsOfChoice(task, choice, benchOf(task))),
  );
  return { assigned, findings: offers.flatMap((offer) => offer.findings) };
}
