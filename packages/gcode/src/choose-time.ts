import { areaOf, lengthOf, tangentOf } from "@dryfit/geometry";
import type { Cutter, CutterKind } from "./cutter.ts";
import { type Bench, deepest } from "./plan-build.ts";
import type { Task } from "./plan-task.ts";

/**
 * About how long a cutter takes over a task, s: enough to compare cutters. One that leaves the rougher edge
 * counts as slower, so that of equals the cleaner one is taken.
 */
export function secondsFor(task: Task, cutter: Cutter, bench: Bench): number {
  const deep = deepest(task, bench);
  const kind = cutter.kind === "drill" ? "drilling" : "slot";
  const data = bench.data(cutter, task.material, { kind, depth: deep });
  const { shape } = task;
  if (cutter.kind === "drill") return (60 * deep) / data.plungeMmPerMin;
  const passes = Math.ceil(deep / data.depthPerPass - 1e-9);
  const minutes = (length: number, feed: number): number => (length * passes) / feed;
  const time = (): number => {
    if (shape.kind === "hole") {
      const round = Math.PI * (shape.diameter - cutter.diameter);
      const turns = Math.max(1, deep / tangentOf(bench.options.rampAngle) / Math.max(round, 1));
      return (round * (turns + 1)) / data.rampMmPerMin + deep / data.plungeMmPerMin;
    }
    if (shape.kind !== "pocket") return minutes(lengthOf(shape.loop), data.feedMmPerMin);
    const walls = [shape.region.outer, ...shape.region.holes].reduce((sum, loop) => sum + lengthOf(loop), 0);
    const inner = Math.max(0, areaOf([shape.region]) - (walls * cutter.diameter) / 2);
    return minutes(walls + inner / data.stepover, data.feedMmPerMin);
  };
  return 60 * time() * (1 + ROUGHER * roughness(cutter.kind, task.depth === null));
}

/** How much a step down in cleanness weighs against time. */
const ROUGHER = 0.03;

/** Steps down from the cutter that leaves the cleanest edges: common practice. */
function roughness(kind: CutterKind, through: boolean): number {
  const cleanest: readonly CutterKind[] = through
    ? ["compression", "up-cut", "straight", "down-cut"]
    : ["down-cut", "compression", "straight", "up-cut"];
  return Math.max(0, cleanest.indexOf(kind));
}
