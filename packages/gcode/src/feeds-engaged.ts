import { depthFactor } from "./chip-load.ts";
import type { Cut } from "./cut.ts";
import type { Cutter } from "./cutter.ts";
import { mm, percent, roundedDown, type Sum } from "./sum.ts";

/**
 * How deep one pass goes where never more than `width` of the cutter's side is in wood, mm: as much wood a minute as in
 * a full slot of the slot's depth, but no more than two diameters, and no deeper than the flutes are long. By hand, it stands.
 */
export function engagedDepth(
  sum: Sum,
  cutter: Cutter,
  cut: Cut,
  { slot, width, factor }: { readonly slot: number; readonly width: number; readonly factor: number },
): number {
  if (sum.isByHand("depthPerPass")) return slot;
  const most = Math.min(
    cutter.fluteLength,
    DEEPEST * cutter.diameter,
    (slot * cutter.diameter * factor) / width,
  );
  if (most <= slot || cut.depth <= slot) return slot;
  const depth = roundedDown(most, 0.1);
  sum.say(
    `never more than ${mm(width)} wide: as much wood a minute as from a slot down to ${mm(depth)}, ${DEEPEST} diameters at most (common practice)`,
  );
  return Math.max(slot, depth);
}

/** Depth of a pass at the cutter's side over its diameter. Common practice, no source. */
const DEEPEST = 2;

/** What passes that are deeper than a slot's leave of the chip that a slot of this depth bears. */
export function deepShare(sum: Sum, cutter: Cutter, cut: Cut, perPass: number, slotDepth: number): number {
  const pass = cut.depth / Math.ceil(cut.depth / perPass - 1e-9);
  const share = Math.min(1, depthFactor(pass, cutter.diameter) / depthFactor(slotDepth, cutter.diameter));
  if (share < 1) sum.say(`${mm(pass)} deep at once, so ${percent(share)} of a slot's chip`);
  return share;
}
