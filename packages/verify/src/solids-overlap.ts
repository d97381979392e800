import { CONTACT_MM, NO_WOOD_MM3 } from "@dryfit/geometry";
import type { Box3 } from "@dryfit/joinery";
import { boundsOfSolid, boxesMeet, crop, type Solid, type SolidKernel, scoped } from "./solids.ts";

/** Wood in wood: how much, mm³, and where. */
export interface Overlap {
  readonly volume: number;
  readonly box: Box3;
}

/**
 * Where two solids claim the same wood; null where they are apart or only meet.
 *
 * Two cut faces that meet may overlap by CONTACT_MM, over a whole panel's length, and that is contact:
 * an overlap counts only where something is left once that much is planed off it along each axis.
 */
export function overlapOf(kernel: SolidKernel, a: Solid, b: Solid): Overlap | null {
  if (!boxesMeet(boundsOfSolid(a), boundsOfSolid(b), -CONTACT_MM)) return null;
  return scoped((keep) => {
    const common = keep(a.intersect(b));
    const volume = common.volume();
    if (volume < NO_WOOD_MM3) return null;
    let core = common;
    for (const step of [
      [CONTACT_MM, 0, 0],
      [0, CONTACT_MM, 0],
      [0, 0, CONTACT_MM],
    ] as const) {
      core = keep(kernel.Manifold.intersection(core, keep(core.translate([...step]))));
    }
    return core.volume() < NO_WOOD_MM3 ? null : { volume, box: boundsOfSolid(core) };
  });
}

/** The same, within a box only. */
export function overlapIn(kernel: SolidKernel, a: Solid, b: Solid, box: Box3): Overlap | null {
  return scoped((keep) => overlapOf(kernel, keep(crop(kernel, a, box)), keep(crop(kernel, b, box))));
}
