import { type Placement, placement, point } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { assign, type Drawer } from "./assign.ts";
import { benchFor, goingWay } from "./bench-for.ts";
import type { Wood } from "./chip-load.ts";
import { cuttingData } from "./feeds.ts";
import type { Known } from "./known.ts";
import type { Machine } from "./machine.ts";
import { type Bench, type DataFor, prepare } from "./plan-build.ts";
import { type Direction, optionsOf } from "./plan-options.ts";
import { needsFlip, type Task, tasksOf } from "./plan-task.ts";

/**
 * What is worth knowing of the parts before anybody knows where they will lie: how cutters fit them and how their
 * recesses are cleared, planned as if all parts of one thickness lay on one sheet. Where they will not, some of it is
 * of no use, and nothing is wrong.
 */
export function rehearse(
  parts: readonly Part[],
  drawer: Drawer,
  machine: Machine,
  wood: Wood,
  directions: Readonly<Record<string, Direction>> = {},
): Known {
  const known: Known = new Map();
  const options = optionsOf(machine);
  const data: DataFor = (cutter, _material, cut) => cuttingData(cutter, machine, wood, cut);
  for (const thick of new Set(parts.map(({ thickness }) => thickness.mean))) {
    const group = parts.filter(({ thickness }) => thickness.mean === thick);
    const bench = benchFor(STAYS.A, [], group, machine, data, options, known);
    const placed = group.map(({ id }) => ({ part: id, placement: HERE }));
    const byId = new Map(group.map((part) => [part.id, part]));
    const last = group.some(needsFlip) ? "B" : "A";
    const tasks = tasksOf(placed, byId, STAYS, last, () => last);
    const benchOf = ({ part }: Task): Bench => goingWay(bench, directions[part]);
    const { assigned } = assign(tasks, drawer, options, benchOf, () => []);
    for (const { task, choice } of assigned)
      if (task.kind !== "outline") prepare(task, choice, benchOf(task));
  }
  return known;
}

const HERE: Placement<"sheet", "panel"> = placement(point(0, 0));
const STAYS: Readonly<Record<"A" | "B", Placement<"setup", "sheet">>> = {
  A: placement(point(0, 0)),
  B: placement(point(0, 0), { flip: true }),
};
