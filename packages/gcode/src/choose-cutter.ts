import { intersection, type Loop, offset } from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import { type Fit, knownFit } from "./choose-fit.ts";
import type { RestClearing } from "./clear-rest.ts";
import type { Cutter } from "./cutter.ts";
import type { Known } from "./known.ts";
import { drawnOf, type Task } from "./plan-task.ts";

/** A cutter that can do a task, and the corners it leaves round. */
export interface Choice extends Fit {
  readonly cutter: Cutter;
  /** Only where a larger cutter comes before it, and it clears the rest. */
  readonly rough?: Roughing;
}

/** A larger cutter that roughs a recess, and how the two share it. */
interface Roughing {
  readonly cutter: Cutter;
  /** As seen on the face that is up. */
  readonly plan: RestClearing;
}

/** The cutters that can do the task, the widest first; where there is none, a finding says what is in the way. */
export function choicesFor(
  task: Task,
  cutters: readonly Cutter[],
  { deep, beyond, others }: Around,
  known: Known = new Map(),
): { readonly choices: readonly Choice[]; readonly findings: readonly Finding[] } {
  const able = cutters.filter((cutter) => isFor(cutter, task));
  const widestFirst = [...able].sort((a, b) => b.diameter - a.diameter || a.number - b.number);
  const choices: Choice[] = [];
  for (const cutter of widestFirst) {
    if (cutter.fluteLength < deep) continue;
    // Where a cutter gets in, so does every narrower one, and it leaves the same corners round.
    const before = choices.at(-1);
    const fit =
      before !== undefined && task.shape.kind !== "hole"
        ? before
        : fitAmong(task, cutter.diameter / 2, beyond, others, known);
    if (fit.fits) choices.push({ ...fit, cutter });
  }
  const findings = choices.length > 0 ? [] : [noneFits(task, able, { deep, beyond, others }, known)];
  return { choices, findings };
}

/** What a cut must reckon with: how deep it goes, how far it runs out over an edge, and what lies around. */
export interface Around {
  readonly deep: number;
  readonly beyond: number;
  /** The outlines of the other parts on the sheet. */
  readonly others: readonly Loop[];
}

/** An outline's cutter must pass between its part and the neighbours. */
function fitAmong(task: Task, radius: number, beyond: number, others: readonly Loop[], known: Known): Fit {
  const fit = knownFit(known, drawnOf(task).shape, radius, beyond);
  const { shape } = task;
  if (!fit.fits || shape.kind !== "outside" || others.length === 0) return fit;
  const kerf = offset([{ outer: shape.loop, holes: [] }], 2 * radius);
  const neighbours = others.map((outer) => ({ outer, holes: [] }));
  return { ...fit, fits: intersection(kerf, neighbours).length === 0 };
}

/** How much wider than the hole a drill may be, mm: what a brad-point drill does anyway. From memory. */
const DRILL_MM = 0.05;

function isFor(cutter: Cutter, task: Task): boolean {
  if (cutter.kind === "drill")
    return task.shape.kind === "hole" && Math.abs(cutter.diameter - task.shape.diameter) <= DRILL_MM;
  return isEndMill(cutter);
}

/** Leaves a flat floor and an upright wall. */
export function isEndMill({ kind }: Cutter): boolean {
  return kind !== "drill" && kind !== "round-over" && kind !== "v";
}

function noneFits(task: Task, able: readonly Cutter[], around: Around, known: Known): Finding {
  const { deep } = around;
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
  const widest = widestThatFits(task, narrowest, around, known);
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
function widestThatFits(task: Task, tooWide: number, { beyond, others }: Around, known: Known): number {
  let [low, high] = [0, tooWide];
  while (high - low > 0.1) {
    const middle = (low + high) / 2;
    if (fitAmong(task, middle / 2, beyond, others, known).fits) low = middle;
    else high = middle;
  }
  return Math.floor(low * 10) / 10;
}

const mm = (length: number): string => `${Number(length.toFixed(2))} mm`;
