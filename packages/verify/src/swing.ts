import { CONTACT_MM } from "@dryfit/geometry";
import type { Assembly, Box3, Point3 } from "@dryfit/joinery";
import { boundsOfSolid, boxesMeet, crop, type Keep, type Solid, type SolidKernel, scoped } from "./solids.ts";
import { cornersOf, meshOf } from "./solids-mesh.ts";
import { type Overlap, overlapOf } from "./solids-overlap.ts";

/** How far a hinged level opens. */
export interface Swing {
  /** The first whole degree at which it meets other wood; null where it opens all the way. */
  readonly bindsAtDeg: number | null;
  /** mm³ of wood in wood there, and where. */
  readonly overlap: Overlap | null;
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
  const lid = hinge.parts.flatMap((part) => solids.get(part) ?? []);
  if (lid.length === 0) return null;
  const standing = [...solids].filter(([part]) => !hinge.parts.includes(part)).map(([, solid]) => solid);
  return scoped((keep) => {
    const corners = lid.flatMap((solid) => cornersOf(meshOf(solid)));
    const rest = withinReach(kernel, keep, tubeOf(corners, hinge.axis), standing);
    // Turning from y to z is positive: what lies before its axis is lifted by a negative turn.
    const ys = corners.map(({ y }) => y);
    const lift = ys.reduce((a, b) => a + b, 0) / ys.length < hinge.axis.y ? -1 : 1;
    for (let deg = 0; deg <= hinge.swingDeg; deg++) {
      const overlap = firstOverlap(kernel, lid, rest, hinge.axis, lift * deg);
      if (overlap !== null) return { bindsAtDeg: deg, overlap };
    }
    return { bindsAtDeg: null, overlap: null };
  });
}

interface Boxed {
  readonly solid: Solid;
  readonly box: Box3;
}

function firstOverlap(
  kernel: SolidKernel,
  lid: readonly Solid[],
  rest: readonly Boxed[],
  axis: Point3,
  deg: number,
): Overlap | null {
  return scoped((keep) => {
    for (const part of lid) {
      const open = turned(keep, part, axis, deg);
      const bounds = boundsOfSolid(open);
      for (const { solid, box } of rest) {
        const overlap = boxesMeet(box, bounds, -CONTACT_MM) ? overlapOf(kernel, open, solid) : null;
        if (overlap !== null) return overlap;
      }
    }
    return null;
  });
}

/** The lid can come to nothing outside this box: it holds the tube that the lid sweeps. */
function tubeOf(corners: readonly Point3[], axis: Point3): Box3 {
  const radius = corners.reduce((most, { y, z }) => Math.max(most, Math.hypot(y - axis.y, z - axis.z)), 0);
  const [left, right] = corners.reduce(
    ([a, b], { x }) => [Math.min(a, x), Math.max(b, x)],
    [Infinity, -Infinity],
  );
  return {
    min: { x: left, y: axis.y - radius, z: axis.z - radius },
    max: { x: right, y: axis.y + radius, z: axis.z + radius },
  };
}

function withinReach(kernel: SolidKernel, keep: Keep, tube: Box3, standing: readonly Solid[]): Boxed[] {
  return standing
    .filter((solid) => boxesMeet(boundsOfSolid(solid), tube, -CONTACT_MM))
    .map((solid) => keep(crop(kernel, solid, tube)))
    .filter((solid) => !solid.isEmpty())
    .map((solid) => ({ solid, box: boundsOfSolid(solid) }));
}

function turned(keep: Keep, solid: Solid, { x, y, z }: Point3, deg: number): Solid {
  return keep(keep(keep(solid.translate(-x, -y, -z)).rotate(deg, 0, 0)).translate(x, y, z));
}
