import { CONTACT_MM } from "@dryfit/geometry";
import type { Assembly, Box3, Point3 } from "@dryfit/joinery";
import { boundsOfSolid, boxesMeet, crop, type Keep, type Solid, type SolidKernel, scoped } from "./solids.ts";
import { centroidOf, cornersOf, meshOf } from "./solids-mesh.ts";
import { overlapOf } from "./solids-overlap.ts";

/** How far a hinged level opens. */
export interface Swing {
  /** The first whole degree at which it meets other wood; null where it opens all the way. */
  readonly bindsAtDeg: number | null;
  /** mm³ of wood in wood there, and where. */
  readonly overlap: { readonly volume: number; readonly box: Box3 } | null;
}

/**
 * Opens the hinged parts, 1° at a time, about their axis (parallel to x), the way that lifts them.
 * Null where nothing swings.
 */
export function swingOf(
  kernel: SolidKernel,
  hinge: Assembly["hinge"],
  solids: ReadonlyMap<string, Solid>,
): Swing | null {
  if (hinge === null) return null;
  const swinging = hinge.parts.flatMap((part) => solids.get(part) ?? []);
  if (swinging.length === 0) return null;
  const standing = [...solids].filter(([part]) => !hinge.parts.includes(part)).map(([, solid]) => solid);
  return scoped((keep) => {
    const lid = keep(kernel.Manifold.compose(swinging));
    const rest = withinReach(kernel, keep, lid, hinge.axis, standing);
    // Turning from y to z is positive: what lies before its axis is lifted by a negative turn.
    const lift = centroidOf(meshOf(lid)).centre.y < hinge.axis.y ? -1 : 1;
    for (let deg = 0; deg <= hinge.swingDeg; deg++) {
      const hit = scoped((keepHere) => {
        const open = turned(keepHere, lid, hinge.axis, lift * deg);
        const bounds = boundsOfSolid(open);
        return rest
          .filter(({ box }) => boxesMeet(box, bounds, -CONTACT_MM))
          .map(({ solid }) => overlapOf(kernel, open, solid))
          .find((overlap) => overlap !== null);
      });
      if (hit) return { bindsAtDeg: deg, overlap: hit };
    }
    return { bindsAtDeg: null, overlap: null };
  });
}

/** Of each standing part, what the lid can come to at all: the tube that it sweeps lies in this box. */
function withinReach(
  kernel: SolidKernel,
  keep: Keep,
  lid: Solid,
  axis: Point3,
  standing: readonly Solid[],
): { solid: Solid; box: Box3 }[] {
  const radius = cornersOf(meshOf(lid)).reduce(
    (most, { y, z }) => Math.max(most, Math.hypot(y - axis.y, z - axis.z)),
    0,
  );
  const { min, max } = boundsOfSolid(lid);
  const tube = {
    min: { x: min.x, y: axis.y - radius, z: axis.z - radius },
    max: { x: max.x, y: axis.y + radius, z: axis.z + radius },
  };
  return standing
    .map((solid) => keep(crop(kernel, solid, tube)))
    .filter((solid) => !solid.isEmpty())
    .map((solid) => ({ solid, box: boundsOfSolid(solid) }));
}

function turned(keep: Keep, solid: Solid, { x, y, z }: Point3, deg: number): Solid {
  return keep(keep(keep(solid.translate(-x, -y, -z)).rotate(deg, 0, 0)).translate(x, y, z));
}
