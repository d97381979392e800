import { spacersFor } from "./fence.ts";
import type { HandCutter } from "./tools.ts";

/** A rebate as a table needs it, mm: the tongue that stays, how long it is, and the sheet. */
export interface Rebate {
  readonly tongue: number;
  readonly length: number;
  readonly thickness: { readonly min: number; readonly mean: number; readonly max: number };
  /** How much the tongue may be off: the air that it has on each side. */
  readonly air: number;
  /** How tall the tallest panel is on the edge that is rebated. */
  readonly tall: number;
}

/**
 * How a rebate is cut.
 *
 * `disc`: tongue face down, a slotting disc above it; `standing`: tongue face against the fence, the panel on its
 * edge; both leave the tongue as thick whatever the sheet is. `lying`: rebated face down, and `hand`: rebated face
 * up, with an edge guide: the tongue is what the rebate leaves of the sheet.
 */
export interface RebateSetting {
  readonly way: "disc" | "standing" | "lying" | "hand";
  readonly cutter: HandCutter;
  /** Cutter above the table (its lower edge for a disc), or below the base; one per pass, the last is the finished one. */
  readonly heights: readonly number[];
  /** From the fence's (or edge guide's) face to the edge of the cutter that `measured` names, one per pass. */
  readonly fences: readonly number[];
  readonly measured: "near" | "far";
  /** The tongue at the thinnest and the thickest place of the sheet. */
  readonly tongue: readonly [number, number];
}

/** The way that keeps the tongue true with what there is; null where no cutter does it. */
export function rebateSetting(
  rebate: Rebate,
  cutters: readonly HandCutter[],
  table: boolean,
): RebateSetting | null {
  const { thickness, air } = rebate;
  const even = Math.max(thickness.max - thickness.mean, thickness.mean - thickness.min) <= air;
  const ways = table ? [disc, ...(even ? [lying, standing] : [standing, lying])] : [hand];
  for (const way of ways) {
    const found = [...cutters]
      .sort((a, b) => b.diameter - a.diameter)
      .flatMap((cutter) => {
        const setting = way(rebate, cutter);
        return setting ? [setting] : [];
      });
    if (found[0]) return found[0];
  }
  return null;
}

/**
 * Fences for a groove on the table, its face down and always the same edge on the fence: from the fence to the
 * cutter's near edge. The wall nearest the fence first, so that a later pass cuts against the cutter's turn.
 */
export function grooveFences(walls: readonly [number, number], cutter: number): readonly number[] {
  return spacersFor(walls[1] - walls[0], cutter)
    .map((spacer) => walls[0] + spacer)
    .reverse();
}

function disc({ tongue, length, thickness }: Rebate, cutter: HandCutter): RebateSetting | null {
  if (cutter.kind !== "slotting") return null;
  const deep = (cutter.diameter - (cutter.arbor ?? 0)) / 2;
  const top = thickness.max - tongue;
  if (deep < length || cutter.reach < thickness.max) return null;
  return {
    way: "disc",
    cutter,
    heights: steps(tongue, top, cutter.cuttingLength),
    fences: [length],
    measured: "far",
    tongue: [tongue, tongue],
  };
}

/** A taller panel tips on a table's edge, mm: common practice, no source. */
const TALLEST_MM = 450;

function standing({ tongue, length, thickness, tall }: Rebate, cutter: HandCutter): RebateSetting | null {
  if (cutter.kind !== "straight" || cutter.cuttingLength < length || tall > TALLEST_MM) return null;
  return {
    way: "standing",
    cutter,
    heights: [length],
    fences: steps(tongue, thickness.max - tongue, cutter.diameter),
    measured: "near",
    tongue: [tongue, tongue],
  };
}

function lying(rebate: Rebate, cutter: HandCutter): RebateSetting | null {
  const setting = hand(rebate, cutter);
  return setting && { ...setting, way: "lying" };
}

function hand({ tongue, length, thickness }: Rebate, cutter: HandCutter): RebateSetting | null {
  const depth = thickness.mean - tongue;
  // Wider than the rebate, so that one setting of the fence cuts it in one strip.
  if (cutter.kind !== "straight" || cutter.cuttingLength < depth || cutter.diameter < length) return null;
  return {
    way: "hand",
    cutter,
    heights: passesTo(depth, cutter.depthPerPass),
    fences: [length],
    measured: "far",
    tongue: [thickness.min - depth, thickness.max - depth],
  };
}

/** Places of an edge that removes `over` in bites of `bite`, farthest first, ending at `last`. */
function steps(last: number, over: number, bite: number): readonly number[] {
  const passes = Math.max(1, Math.ceil(over / bite - 1e-9));
  return Array.from({ length: passes }, (_, i) => last + (over * (passes - 1 - i)) / passes);
}

/** Depths of equal passes down to `depth`, none deeper than `most`. */
export function passesTo(depth: number, most: number): readonly number[] {
  const count = Math.max(1, Math.ceil(depth / most - 1e-9));
  return Array.from({ length: count }, (_, i) => (depth * (i + 1)) / count);
}
