import type { Assembly, Box3, Point3 } from "@dryfit/joinery";
import { type Footing, footingOf } from "./feet.ts";
import { centroidOf, cornersOf, type Mesh } from "./solids-mesh.ts";

/** The case as it will stand on the bench: what a maker checks with a rule, a square and a scale. */
export interface CaseMeasures {
  /** Over all in the case frame, mm. */
  readonly outside: Box3;
  /** Corner to corner over the outside, seen from above: front left to back right, front right to back left, mm. */
  readonly diagonals: readonly [number, number];
  /** kg; null where the density of a material is not known. */
  readonly weightKg: number | null;
  readonly centreOfMass: Point3;
  readonly footing: Footing | null;
}

/** `densityOf` in kg/m³ by material; null: not known, and the parts count by their volume. */
export function caseMeasures(
  assembly: Assembly,
  meshes: ReadonlyMap<string, Mesh>,
  densityOf: (material: string) => number | null,
): CaseMeasures {
  const known = assembly.parts.every((part) => densityOf(part.material) !== null);
  const pieces = assembly.parts.flatMap((part) => {
    const mesh = meshes.get(part.id);
    if (mesh === undefined) return [];
    const kgPerMm3 = known ? densityOf(part.material)! / 1e9 : 1;
    const { volume, centre } = centroidOf(mesh);
    return [{ mass: volume * kgPerMm3, centre, corners: cornersOf(mesh) }];
  });
  const corners = pieces.flatMap((piece) => piece.corners);
  const mass = pieces.reduce((sum, piece) => sum + piece.mass, 0);
  const centreOfMass = mean(pieces, mass);
  return {
    outside: boxOf(corners),
    diagonals: diagonalsOf(corners),
    weightKg: known ? mass : null,
    centreOfMass,
    footing: footingOf(assembly.feet, corners, centreOfMass),
  };
}

function mean(pieces: readonly { readonly mass: number; readonly centre: Point3 }[], mass: number): Point3 {
  const along = (axis: "x" | "y" | "z") =>
    pieces.reduce((sum, piece) => sum + piece.mass * piece.centre[axis], 0) / mass;
  return { x: along("x"), y: along("y"), z: along("z") };
}

function boxOf(corners: readonly Point3[]): Box3 {
  const over = (pick: (a: number, b: number) => number): Point3 =>
    corners.reduce((a, b) => ({ x: pick(a.x, b.x), y: pick(a.y, b.y), z: pick(a.z, b.z) }));
  return { min: over(Math.min), max: over(Math.max) };
}

function diagonalsOf(corners: readonly Point3[]): [number, number] {
  const furthest = (x: 1 | -1, y: 1 | -1) =>
    corners.reduce((far, p) => (x * p.x + y * p.y > x * far.x + y * far.y ? p : far));
  const between = (a: Point3, b: Point3) => Math.hypot(a.x - b.x, a.y - b.y);
  return [between(furthest(-1, -1), furthest(1, 1)), between(furthest(1, -1), furthest(-1, 1))];
}
