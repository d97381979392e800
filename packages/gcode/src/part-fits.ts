import { placement, point } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { choicesFor } from "./choose-cutter.ts";
import type { KnownFits } from "./choose-fit.ts";
import type { Cutter } from "./cutter.ts";
import type { Machine } from "./machine.ts";
import { optionsOf } from "./plan-options.ts";
import { tasksOf } from "./plan-task.ts";

/** How well cutters fit all that is to be cut of the parts: known before anybody knows where they will lie. */
export function partFits(parts: readonly Part[], cutters: readonly Cutter[], machine: Machine): KnownFits {
  const known: KnownFits = new Map();
  const { runOut } = optionsOf(machine);
  const stays = { A: placement<"setup", "sheet">(point(0, 0)), B: placement<"setup", "sheet">(point(0, 0)) };
  for (const part of parts) {
    const placed = [{ part: part.id, placement: placement<"sheet", "panel">(point(0, 0)) }];
    const through = part.thickness.mean + machine.bedAllowance;
    for (const task of tasksOf(placed, new Map([[part.id, part]]), stays, "A", () => "A"))
      choicesFor(task, cutters, { deep: task.depth ?? through, beyond: runOut, others: [] }, known);
  }
  return known;
}
