import type { Box3, Direction, Point3 } from "@dryfit/joinery";

export type Axis = "x" | "y" | "z";

export function axisOf(direction: Direction): Axis {
  return direction[1] as Axis;
}

export function signOf(direction: Direction): 1 | -1 {
  return direction[0] === "+" ? 1 : -1;
}

export function opposite(direction: Direction): Direction {
  return `${direction[0] === "+" ? "-" : "+"}${axisOf(direction)}`;
}

export function vectorOf(direction: Direction): Point3 {
  return { x: 0, y: 0, z: 0, [axisOf(direction)]: signOf(direction) };
}

/** The box with its side in `direction` moved outwards by `by` (inwards where negative). */
export function stretch(box: Box3, direction: Direction, by: number): Box3 {
  const axis = axisOf(direction);
  return signOf(direction) > 0
    ? { min: box.min, max: { ...box.max, [axis]: box.max[axis] + by } }
    : { min: { ...box.min, [axis]: box.min[axis] - by }, max: box.max };
}

/** The box grown by `by` both ways along the axis. */
export function widen(box: Box3, axis: Axis, by: number): Box3 {
  return stretch(stretch(box, `+${axis}`, by), `-${axis}`, by);
}
