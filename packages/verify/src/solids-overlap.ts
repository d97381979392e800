import { CONTACT_MM, NO_WOOD_MM3 } from "@dryfit/geometry";
import type { Box3 } from "@dryfit/joinery";
import { boxAround, boxesMeet, crop, type Scope, type Slab, scoped, slabs, type Wood } from "./solids.ts";

/** Wood in wood: how much, mm³, and where. */
export interface Overlap {
  readonly volume: number;
  readonly box: Box3;
}

/**
 * Where two pieces claim the same wood; null where they are apart or only meet.
 *
 * Two cut faces that meet may overlap by CONTACT_MM, over a whole panel's length, and that is contact:
 * an overlap counts only where something is left once that much is planed off it along each axis.
 */
export function overlapOf({ kernel }: Scope, a: Wood, b: Wood): Overlap | null {
  const found = a.flatMap((one) => b.flatMap((other) => slabOverlap(kernel, one, other) ?? []));
  if (found.length === 0) return null;
  return {
    volume: found.reduce((sum, { volume }) => sum + volume, 0),
    box: boxAround(found.map(({ box }) => box)),
  };
}

/** The same, within a box only. */
export function overlapIn({ kernel }: Scope, a: Wood, b: Wood, box: Box3): Overlap | null {
  return scoped(kernel, (scope) => overlapOf(scope, crop(scope, a, box), crop(scope, b, box)));
}

function slabOverlap(kernel: Scope["kernel"], a: Slab, b: Slab): Overlap | null {
  if (!boxesMeet(a.box, b.box, -CONTACT_MM)) return null;
  return scoped(kernel, ({ keep }) => {
    const common = keep(a.solid.intersect(b.solid));
    const volume = common.volume();
    if (volume < NO_WOOD_MM3) return null;
    let core = common;
    for (const step of PLANING) core = keep(core.intersect(keep(core.translate(step))));
    const [rest] = core.volume() < NO_WOOD_MM3 ? [] : slabs(core);
    return rest === undefined ? null : { volume, box: rest.box };
  });
}

const PLANING: readonly (readonly [number, number, number])[] = [
  [CONTACT_MM, 0, 0],
  [0, CONTACT_MM, 0],
  [0, 0, CONTACT_MM],
];
