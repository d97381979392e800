import type { Point3 } from "@dryfit/joinery";
import { type Scope, scoped, type Wood } from "./solids.ts";
import { cross3, dot3, minus } from "./solids-vector.ts";

/** The skin of some wood: corners as x, y, z after one another, and three corners a facet, counter-clockwise from outside. */
export interface Mesh {
  readonly corners: Float64Array;
  readonly facets: Uint32Array;
}

/**
 * The skins of all slabs: where one lies on another, both faces stand in the mesh.
 *
 * The modeller gives corners as float32, so they are fetched from nearby: within 1e-5 mm of where it has them
 * for pieces of up to 100 mm, 1e-4 up to 1 m.
 */
export function meshOf({ kernel }: Scope, wood: Wood): Mesh {
  const skins = wood.map(({ solid, box: { min } }) =>
    scoped(kernel, ({ keep }) => ({ min, mesh: keep(solid.translate(-min.x, -min.y, -min.z)).getMesh() })),
  );
  const count = (of: (mesh: Raw) => number) => skins.reduce((sum, { mesh }) => sum + of(mesh), 0);
  const corners = new Float64Array(3 * count((mesh) => mesh.numVert));
  const facets = new Uint32Array(3 * count((mesh) => mesh.numTri));
  let [corner, facet] = [0, 0];
  for (const { mesh, min } of skins) {
    const first = corner / 3;
    for (let i = 0; i < mesh.numVert; i++) {
      const at = i * mesh.numProp;
      corners[corner++] = mesh.vertProperties[at]! + min.x;
      corners[corner++] = mesh.vertProperties[at + 1]! + min.y;
      corners[corner++] = mesh.vertProperties[at + 2]! + min.z;
    }
    for (const vertex of mesh.triVerts) facets[facet++] = first + vertex;
  }
  return { corners, facets };
}

type Raw = ReturnType<Wood[number]["solid"]["getMesh"]>;

export function cornersOf({ corners }: Mesh): Point3[] {
  return Array.from({ length: corners.length / 3 }, (_, i) => cornerAt(corners, i));
}

/**
 * A mesh's volume and its centre: the mean of the tetrahedra from one corner to each facet, each weighed by its
 * signed volume (divergence theorem).
 */
export function centroidOf({ corners, facets }: Mesh): { volume: number; centre: Point3 } {
  const from = cornerAt(corners, 0);
  let six = 0;
  let [x, y, z] = [0, 0, 0];
  for (let i = 0; i < facets.length; i += 3) {
    const a = minus(cornerAt(corners, facets[i]!), from);
    const b = minus(cornerAt(corners, facets[i + 1]!), from);
    const c = minus(cornerAt(corners, facets[i + 2]!), from);
    const volume = dot3(a, cross3(b, c));
    six += volume;
    x += volume * (a.x + b.x + c.x);
    y += volume * (a.y + b.y + c.y);
    z += volume * (a.z + b.z + c.z);
  }
  const centre = { x: from.x + x / (4 * six), y: from.y + y / (4 * six), z: from.z + z / (4 * six) };
  return { volume: six / 6, centre };
}

function cornerAt(corners: Float64Array, i: number): Point3 {
  return { x: corners[3 * i]!, y: corners[3 * i + 1]!, z: corners[3 * i + 2]! };
}
