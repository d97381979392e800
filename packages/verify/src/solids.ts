import { flatten } from "@dryfit/geometry";
import type { Box3, Point3, Pose } from "@dryfit/joinery";
import type { Manifold, ManifoldToplevel, Mat4, Vec2 } from "manifold-3d";
import type { CutPart } from "./cut-part.ts";
import { vectorOf } from "./solids-axis.ts";

/** The solid modeller, loaded. Ask `loadSolidKernel` for one and keep it: loading compiles it anew. */
export type SolidKernel = ManifoldToplevel;

/** Wood as a solid in the case frame. It lives outside JavaScript's memory: `delete()` it, or `scoped`. */
export type Solid = Manifold;

export type Keep = <T extends { delete(): void }>(solid: T) => T;

/**
 * Loads the solid modeller, in Node or in a browser's worker.
 *
 * A page that is one file has no .wasm beside it: it hands the bytes over as `wasmBinary`.
 */
export async function loadSolidKernel(
  source: { readonly wasmBinary?: ArrayBuffer } = {},
): Promise<SolidKernel> {
  const { default: load } = await import("manifold-3d");
  // The declared options leave out `wasmBinary`, which the loader reads.
  const kernel = await (load as (options?: object) => Promise<SolidKernel>)({ ...source });
  kernel.setup();
  return kernel;
}

/** Runs `work` and then deletes, whatever happened, every solid that it gave to `keep`. */
export function scoped<T>(work: (keep: Keep) => T): T {
  const kept: { delete(): void }[] = [];
  try {
    return work((solid) => {
      kept.push(solid);
      return solid;
    });
  } finally {
    for (const solid of kept) solid.delete();
  }
}

/**
 * The part as cut, stood up in the case: its layers, each as thick as it says, stacked from face A.
 * Layers share exact flat faces, so a floor of a housing is one plane. The caller deletes it.
 */
export function solidOf(kernel: SolidKernel, cut: CutPart, pose: Pose): Solid {
  return scoped((keep) => {
    const slabs = cut.layers
      .filter((layer) => layer.solid.length > 0)
      .map((layer) => {
        const loops = layer.solid.flatMap((region) => [region.outer, ...region.holes]);
        const section = keep(
          new kernel.CrossSection(loops.map((loop) => flatten(loop).map(({ x, y }): Vec2 => [x, y]))),
        );
        const slab = keep(section.extrude(layer.to - layer.from));
        return keep(slab.translate(0, 0, layer.from));
      });
    const panel = keep(kernel.Manifold.union(slabs));
    return panel.transform(caseFromPanel(pose, cut));
  });
}

/** A box of wood (or of air, to crop with). The caller deletes it. */
export function boxSolid(kernel: SolidKernel, { min, max }: Box3): Solid {
  return scoped((keep) => {
    const size = [max.x - min.x, max.y - min.y, max.z - min.z] as const;
    return keep(kernel.Manifold.cube([...size])).translate(min.x, min.y, min.z);
  });
}

/** What lies of `solid` in the box. The caller deletes it. */
export function crop(kernel: SolidKernel, solid: Solid, box: Box3): Solid {
  return scoped((keep) => solid.intersect(keep(boxSolid(kernel, box))));
}

export function boundsOfSolid(solid: Solid): Box3 {
  const { min, max } = solid.boundingBox();
  return { min: point3(min), max: point3(max) };
}

export function boxesMeet(a: Box3, b: Box3, slack = 0): boolean {
  return (["x", "y", "z"] as const).every(
    (axis) => a.min[axis] <= b.max[axis] + slack && b.min[axis] <= a.max[axis] + slack,
  );
}

/** The panel frame (x, y and depth from face A) to the case frame, column by column. */
function caseFromPanel(pose: Pose, { part, thickness }: CutPart): Mat4 {
  const [x, y, into] = [vectorOf(pose.x), vectorOf(pose.y), vectorOf(pose.into)];
  // Seen from face A, x right and y up, depth runs away from the eye: against x × y.
  if (tripleProduct(x, y, into) !== -1) {
    throw new RangeError(`pose of ${part}: ${pose.x} ${pose.y} ${pose.into} mirrors the panel`);
  }
  const datum = pose.datum === "B" ? thickness : 0;
  const { origin } = pose;
  return [
    ...[x.x, x.y, x.z, 0],
    ...[y.x, y.y, y.z, 0],
    ...[into.x, into.y, into.z, 0],
    ...[origin.x - datum * into.x, origin.y - datum * into.y, origin.z - datum * into.z, 1],
  ] as Mat4;
}

function tripleProduct(a: Point3, b: Point3, c: Point3): number {
  return (a.y * b.z - a.z * b.y) * c.x + (a.z * b.x - a.x * b.z) * c.y + (a.x * b.y - a.y * b.x) * c.z;
}

function point3([x, y, z]: readonly [number, number, number]): Point3 {
  return { x, y, z };
}
