import type { Point3 } from "@dryfit/joinery";

export function minus(a: Point3, b: Point3): Point3 {
  return { x: a.x - b.x, y: a.y - b.y, z: a.z - b.z };
}

export function times(a: Point3, factor: number): Point3 {
  return { x: a.x * factor, y: a.y * factor, z: a.z * factor };
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
