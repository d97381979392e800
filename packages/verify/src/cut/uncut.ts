import {
  boundsOf,
  CUT_MM,
  contains,
  differenceFlat,
  OUTPUT_STEP_MM,
  type Point,
  place,
  type Region,
} from "@dryfit/geometry";
import { type Allowances, sandedOff, unreachable } from "./allowed.ts";
import { type Bench, type Level, type Reaching, reaching, woodAt } from "./bench.ts";
import type { Storey } from "./designed.ts";
import { farthest } from "./farthest.ts";
import { nearestOn } from "./gap.ts";
import { boxAround, boxOfSegment, gridOf, grown } from "./grid.ts";
import { depthOf } from "./stroke.ts";

/** Wood left that should have gone. */
export interface Uncut {
  /** How far it reaches out of what was cut, the shorter of sideways and downwards, mm. */
  readonly width: number;
  readonly at: Point<"panel">;
  readonly atSheet: Point<"sheet">;
  /** The depths between which it stands, from face A, mm. */
  readonly from: number;
  readonly to: number;
  /** The piece itself, as wide as it stands where it stands most. */
  readonly piece: Region<"panel">;
}

/**
 * The widest piece of uncut wood of every storey, declared tabs, skin and round corners apart.
 *
 * Between two floors of the design what should go is the same, and what setup A has removed only shrinks with
 * depth (setup B's only grows): so the storey is cut wherever it is cut at its far end, seen from the face
 * that is up. One level tells it. Where both setups share the work of one storey, none of them is through it
 * alone: then the storey is divided at their floors, and each piece is asked.
 */
export function uncutOf(
  bench: Bench,
  storeys: readonly Storey[],
  allowed: Allowances,
  thickness: number,
): Uncut[] {
  return storeys.flatMap((storey) => {
    const spared = [...storey.kept, ...unreachable(allowed, storey)];
    const whole = atEnd(bench, storey, spared, allowed, thickness);
    if (whole === null || whole.width <= CUT_MM) return whole ?? [];
    const found = stepsWithin(bench, storey, thickness).flatMap(
      (step) => uncutBetween(bench, step, spared, allowed, thickness) ?? [],
    );
    return found.length === 0 ? [] : [found.reduce((a, b) => (b.width > a.width ? b : a))];
  });
}

interface Step {
  readonly from: number;
  readonly to: number;
}

/** Depths of the floors that level strokes leave near the part, from face A: ramps end on one of them. */
function floorsOf(bench: Bench, thickness: number): number[] {
  const depths = bench.strokes.flatMap(({ program, z: [start, end] }) =>
    start === end ? [depthOf(program, start, thickness)] : [],
  );
  return [...new Set(depths)].sort((a, b) => a - b);
}

function stepsWithin(bench: Bench, { from, to }: Storey, thickness: number): Step[] {
  const setups = new Set(bench.strokes.map(({ program }) => program.setup));
  if (setups.size < 2) return [{ from, to }];
  const apart = 2 * OUTPUT_STEP_MM;
  const floors = floorsOf(bench, thickness).filter((depth) => depth > from + apart && depth < to - apart);
  const steps = [from, ...floors, to].filter((depth, i, all) => i === 0 || depth - all[i - 1]! > apart);
  return steps.slice(1).map((end, i) => ({ from: steps[i]!, to: end }));
}

/**
 * Judged a printed step inside the storey. Where wood is left there, a floor may be a little too high: then
 * the level of the next floors is tried, and what it is off counts as the width, where that is less.
 */
function uncutBetween(
  bench: Bench,
  { from, to }: Step,
  spared: readonly Region<"panel">[],
  allowed: Allowances,
  thickness: number,
): Uncut | null {
  const whole = atEnd(bench, { from, to }, spared, allowed, thickness);
  if (whole === null || whole.width <= CUT_MM) return whole;
  const shorts = shortfalls(bench, { from, to }, thickness).filter((short) => short < whole.width);
  // The farther from the storey's end, the less is left: the first level that leaves no more than it is short
  // by, or the one before it, is the best.
  let [low, high] = [0, shorts.length];
  let { width } = whole;
  while (low < high) {
    const middle = (low + high) >> 1;
    const short = shorts[middle]!;
    const left = atEnd(bench, { from, to }, spared, allowed, thickness, short)?.width ?? 0;
    width = Math.min(width, Math.max(short, left));
    if (left <= short) high = middle;
    else low = middle + 1;
  }
  return { ...whole, width };
}

/** What is left a printed step inside the far end of a step, or as much more as `short` says. */
function atEnd(
  bench: Bench,
  { from, to }: Step,
  spared: readonly Region<"panel">[],
  allowed: Allowances,
  thickness: number,
  short = 0,
): Uncut | null {
  const inside = short + OUTPUT_STEP_MM;
  const sanded = sandedOff(bench, allowed, (from + to) / 2, thickness);
  const left = uncutAt(bench, { a: to - inside, b: from + inside }, [...spared, ...sanded], thickness);
  return left === null ? null : { ...left, from, to };
}

/** How far short of the storey's far end the strokes' floors are, least first. */
function shortfalls(bench: Bench, { from, to }: Step, thickness: number): number[] {
  const found = bench.strokes.flatMap(({ program, z }) => {
    const depth = depthOf(program, Math.min(...z), thickness);
    return program.setup === "A" ? to - depth : depth - from;
  });
  return [...new Set(found)]
    .filter((short) => short > OUTPUT_STEP_MM && short < thickness)
    .sort((a, b) => a - b);
}

function uncutAt(
  bench: Bench,
  level: Level,
  spared: readonly Region<"panel">[],
  thickness: number,
): Omit<Uncut, "from" | "to"> | null {
  const left = differenceFlat(woodAt(bench, level, thickness), spared);
  if (left.length === 0) return null;
  const found = farthest(
    left,
    distanceBeyond(reaching(bench, level, thickness)),
    // Chords that stand for arcs leave slivers within the kept wood: nothing is wrong with those.
    (p) => spared.every((region) => contains(region, p) !== "inside"),
  );
  if (found === null) return null;
  const { at, piece } = found;
  const { min, max } = boundsOf(piece.outer);
  // Nothing may have been cut anywhere near: but no wood is left wider than its piece.
  const width = Math.min(found.value, max.x - min.x, max.y - min.y);
  return { width, at, atSheet: place(bench.sheetFromPanel, at), piece };
}

/** How far outside the cutter's reach a point is, mm; negative inside. */
function distanceBeyond(cuts: readonly Reaching[]): (p: Point<"panel">) => number {
  const grid = gridOf(cuts, ({ path, radius }) => grown(boxOfSegment(path), radius), CELL_MM);
  const least = (p: Point<"panel">, list: readonly Reaching[]) => {
    let best = Number.POSITIVE_INFINITY;
    for (const { path, radius } of list) {
      const on = nearestOn(path, p);
      best = Math.min(best, Math.hypot(on.x - p.x, on.y - p.y) - radius);
    }
    return best;
  };
  return (p) => {
    for (const reach of NEAR_MM) {
      const near = least(p, grid.near(boxAround(p, reach)));
      if (near <= reach) return near;
    }
    return least(p, cuts);
  };
}

/** About a cutter's width, mm. */
const CELL_MM = 10;
/** Where to look first: farther than a sliver is wide, then as far as a cutter; mostly the first decides. mm. */
const NEAR_MM = [0.1, 5];
