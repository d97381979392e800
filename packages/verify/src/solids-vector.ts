import type { Point3 } from "@dryfit/joinery";
import type { Solid } from "./solids.ts";

export function minus(a: Point3, b: Point3): Point3 {
  return { x: a.x - b.x, y: a.y - b.y, z: a.z - b.z };
}

export function dot3(a: Point3, b: Point3): number {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

export function cross3(a: Point3, b: Point3): Point3 {
  return { x: a.y * b.z - a.z * b.y, y: a.z * b.x - a.x * b.z, z: a.x * b.y - a.y * b.x };
}

export function norm(a: Point3): number {
  return Math.hypot(a.x, a.y, a.z);
}

export function times(a: Point3, factor: number): Point3 {
  return { x: a.x * factor, y: a.y * factor, z: a.z * factor };
}

/** Every corner of the solid, float32 as the modeller gives them: within 0.0001 mm up to 1 m. */
export function cornersOf(solid: Solid): Point3[] {
  const { numProp, vertProperties } = solid.getMesh();
  return Array.from({ length: vertProperties.length / numProp }, (_, i) => ({
    x: vertProperties[i * numProp]!,
    y: vertProperties[i * numProp + 1]!,
    z: vertProperties[i * numProp + 2]!,
  }));
}

/**
 * The centre of a solid's volume: the mean of the tetrahedra from one corner of space to each facet, each
 * weighed by its signed volume (divergence theorem).
 */
export function centroidOf(solid: Solid): Point3 {
  const { triVerts } = solid.getMesh();
  const corners = cornersOf(solid);
  const from = corners[0]!;
  let six = 0;
  let sum: Point3 = { x: 0, y: 0, z: 0 };
  for (let i = 0; i < triVerts.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => minus(corners[triVerts[i + k]!]!, from)) as [
      Point3,
      Point3,
      Point3,
    ];
    const volume = dot3(a, cross3(b, c));
    six += volume;
    sum = {
      x: sum.x + volume * (a.x + b.x + c.x),
      y: sum.y + volume * (a.y + b.y + c.y),
      z: sum.z + volume * (a.z + b.z + c.z),
    };
  }
  return { x: from.x + sum.x / (4 * six), y: from.y + sum.y / (4 * six), z: from.z + sum.z / (4 * six) };
}
