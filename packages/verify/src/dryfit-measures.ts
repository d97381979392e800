import type { Assembly, Box3, Point3 } from "@dryfit/joinery";
import { type Footing, footingOf } from "./feet.ts";
import { boundsOfSolid, type Solid } from "./solids.ts";
import { centroidOf, cornersOf } from "./solids-vector.ts";

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
  solids: ReadonlyMap<string, Solid>,
  densityOf: (material: string) => number | null,
): CaseMeasures {
  const known = assembly.parts.every((part) => densityOf(part.material) !== null);
  const pieces = assembly.parts.flatMap((part) => {
    const solid = solids.get(part.id);
    if (solid === undefined || solid.isEmpty()) return [];
    const kgPerMm3 = known ? densityOf(part.material)! / 1e9 : 1;
    return [{ solid, mass: solid.volume() * kgPerMm3, centre: centroidOf(solid), corners: cornersOf(solid) }];
  });
  const corners = pieces.flatMap((piece) => piece.corners);
  const mass = pieces.reduce((sum, piece) => sum + piece.mass, 0);
  const centreOfMass = mean(pieces, mass);
  return {
    outside: enclosing(pieces.map(({ solid }) => boundsOfSolid(solid))),
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

function enclosing(boxes: readonly Box3[]): Box3 {
  const over = (end: "min" | "max", axis: "x" | "y" | "z") =>
    boxes.map((box) => box[end][axis]).reduce((a, b) => (end === "min" ? Math.min(a, b) : Math.max(a, b)));
  return {
    min: { x: over("min", "x"), y: over("min", "y"), z: over("min", "z") },
    max: { x: over("max", "x"), y: over("max", "y"), z: over("max", "z") },
  };
}

function diagonalsOf(corners: readonly Point3[]): [number, number] {
  const furthest = (x: 1 | -1, y: 1 | -1) =>
    corners.reduce((far, p) => (x * p.x + y * p.y > x * far.x + y * far.y ? p : far));
  const between = (a: Point3, b: Point3) => Math.hypot(a.x - b.x, a.y - b.y);
  return [between(furthest(-1, -1), furthest(1, 1)), between(furthest(1, -1), furthest(-1, 1))];
}
