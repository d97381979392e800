import type { Assembly, Box3, Point3 } from "@dryfit/joinery";
import { boxesMeet, crop, type Scope, scoped, turned, turnedBox, type Wood } from "./solids.ts";
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
  { kernel }: Scope,
  hinge: Assembly["hinge"],
  woods: ReadonlyMap<string, Wood>,
): Swing | null {
  if (hinge === null) return null;
  const lid = hinge.parts.flatMap((part) => woods.get(part) ?? []);
  if (lid.length === 0) return null;
  const standing = [...woods].filter(([part]) => !hinge.parts.includes(part)).flatMap(([, wood]) => wood);
  return scoped(kernel, (scope) => {
    const corners = cornersOf(meshOf(scope, lid));
    const rest = crop(scope, standing, tubeOf(corners, hinge.axis));
    // Turning from y to z is positive: what lies before its axis is lifted by a negative turn.
    const ys = corners.map(({ y }) => y);
    const lift = ys.reduce((a, b) => a + b, 0) / ys.length < hinge.axis.y ? -1 : 1;
    for (let deg = 0; deg <= hinge.swingDeg; deg++) {
      // Most of the lid is far from everything most of the way: only what may meet something is turned itself.
      const near = lid.filter(({ box }) => {
        const around = turnedBox(box, hinge.axis, lift * deg);
        return rest.some((slab) => boxesMeet(around, slab.box));
      });
      if (near.length === 0) continue;
      const overlap = scoped(kernel, (here) =>
        overlapOf(here, turned(here, near, hinge.axis, lift * deg), rest),
      );
      if (overlap !== null) return { bindsAtDeg: deg, overlap };
    }
    return { bindsAtDeg: null, overlap: null };
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
