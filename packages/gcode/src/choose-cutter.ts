import type { Finding } from "@dryfit/joinery";
import { type Fit, fitOf } from "./choose-fit.ts";
import type { Cutter, CutterKind } from "./cutter.ts";
import type { Task } from "./plan-task.ts";

/** A cutter that can do a task, and the corners it leaves round. */
export interface Choice extends Fit {
  readonly cutter: Cutter;
}

/**
 * The cutters that can do the task, the best first: a drill of the hole's own diameter, then the largest.
 * Where there is none, a finding says what is in the way.
 */
export function choicesFor(
  task: Task,
  cutters: readonly Cutter[],
  deep: number,
  beyond: number,
): { readonly choices: readonly Choice[]; readonly findings: readonly Finding[] } {
  const able = cutters.filter((cutter) => isFor(cutter, task));
  const choices = able
    .filter((cutter) => cutter.fluteLength >= deep)
    .map((cutter): Choice => ({ cutter, ...fitOf(task.shape, cutter.diameter / 2, beyond) }))
    .filter(({ fits }) => fits)
    .sort((a, b) => rank(b.cutter, task) - rank(a.cutter, task) || a.cutter.number - b.cutter.number);
  return { choices, findings: choices.length > 0 ? [] : [noneFits(task, able, deep, beyond)] };
}

/** How much wider than the hole a drill may be, mm: what a brad-point drill does anyway. From memory. */
const DRILL_MM = 0.05;

function isFor(cutter: Cutter, task: Task): boolean {
  if (cutter.kind === "drill")
    return task.shape.kind === "hole" && Math.abs(cutter.diameter - task.shape.diameter) <= DRILL_MM;
  return cutter.kind !== "round-over" && cutter.kind !== "v";
}

/** Larger is better; among equals, the kind that leaves the clean edge where it is wanted. Common practice. */
function rank(cutter: Cutter, task: Task): number {
  const order: readonly CutterKind[] =
    task.depth === null
      ? ["down-cut", "straight", "up-cut", "compression"]
      : ["compression", "straight", "up-cut", "down-cut"];
  return (cutter.kind === "drill" ? 1000 : cutter.diameter) + order.indexOf(cutter.kind) / 1000;
}

function noneFits(task: Task, able: readonly Cutter[], deep: number, beyond: number): Finding {
  const path = task.id;
  const longEnough = able.filter((cutter) => cutter.fluteLength >= deep);
  if (able.length === 0)
    return {
      code: "no_cutter",
      severity: "error",
      path,
      message: `${task.id}: the cutter file holds no cutter for this ${task.kind}.`,
      numbers: {},
      wayOut: "Add a cutter to the cutter file.",
    };
  if (longEnough.length === 0) {
    const longest = Math.max(...able.map((cutter) => cutter.fluteLength));
    return {
      code: "flutes_too_short",
      severity: "error",
      path,
      message: `${task.id}: the cut goes ${mm(deep)} deep, the longest flutes reach ${mm(longest)}.`,
      numbers: { depth: deep, longest },
      wayOut: "Add a cutter with longer flutes to the cutter file.",
    };
  }
  const narrowest = Math.min(...longEnough.map((cutter) => cutter.diameter));
  const widest = widestThatFits(task, narrowest, beyond);
  return {
    code: "cutter_too_wide",
    severity: "error",
    path,
    message: `${task.id}: the narrowest cutter that reaches ${mm(deep)} deep is ${mm(narrowest)} wide, at most ${mm(widest)} fits.`,
    numbers: { cutter: narrowest, widest },
    wayOut: "Add a narrower cutter to the cutter file, or widen the feature or its corners.",
  };
}

/** The widest cutter that would do, to a tenth of a millimetre below. */
function widestThatFits(task: Task, tooWide: number, beyond: number): number {
  let [low, high] = [0, tooWide];
  while (high - low > 0.1) {
    const middle = (low + high) / 2;
    if (fitOf(task.shape, middle / 2, beyond).fits) low = middle;
    else high = middle;
  }
  return Math.floor(low * 10) / 10;
}

const mm = (length: number): string => `${Number(length.toFixed(2))} mm`;
