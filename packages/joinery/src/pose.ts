import type { Point } from "@dryfit/geometry";
import type { Box3, Direction, Point3, Pose } from "./assembly.ts";
import type { Part } from "./part.ts";

/** Where a point of a part stands in the case: panel x, y and depth from face A, in a sheet of this thickness. */
export function caseFromPanel(pose: Pose, at: Point<"panel">, depth: number, thickness: number): Point3 {
  const steps: readonly (readonly [Direction, number])[] = [
    [pose.x, at.x],
    [pose.y, at.y],
    [pose.into, depth + ((pose.stacked ?? 0) - (pose.datum === "A" ? 0 : 1)) * thickness],
  ];
  return steps.reduce((p, [way, by]) => moved(p, way, by), pose.origin);
}

/** The panel's x, y of a point in the case, straight onto its face. */
export function panelFromCase(pose: Pose, at: Point3): Point<"panel"> {
  return { x: along(pose, pose.x, at), y: along(pose, pose.y, at) };
}

/** The upright box that a part fills in the case, at mean thickness; `size` is its outline's. */
export function boxInCase(part: Part, pose: Pose, size: Point<"panel">): Box3 {
  const t = part.thickness.mean;
  const [a, b] = [caseFromPanel(pose, { x: 0, y: 0 }, 0, t), caseFromPanel(pose, size, t, t)];
  return {
    min: { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y), z: Math.min(a.z, b.z) },
    max: { x: Math.max(a.x, b.x), y: Math.max(a.y, b.y), z: Math.max(a.z, b.z) },
  };
}

export function axisOf(way: Direction): "x" | "y" | "z" {
  return way[1] as "x" | "y" | "z";
}

function along(pose: Pose, way: Direction, at: Point3): number {
  const axis = axisOf(way);
  const by = at[axis] - pose.origin[axis];
  return way[0] === "+" ? by : 0 - by;
}

function moved(p: Point3, way: Direction, by: number): Point3 {
  const axis = axisOf(way);
  return { ...p, [axis]: p[axis] + (way[0] === "+" ? by : -by) };
}
