import { cosine, FLATTENING_MM, flatten, sine } from "@dryfit/geometry";
import type { Box3, Point3, Pose } from "@dryfit/joinery";
import type { Manifold, ManifoldToplevel, Mat4, Vec2 } from "manifold-3d";
import type { CutPart } from "./cut-part.ts";
import { vectorOf } from "./solids-axis.ts";

/** The solid modeller, loaded. Ask `loadSolidKernel` for one and keep it: loading compiles it anew. */
export type SolidKernel = ManifoldToplevel;

/** The modeller, and where to leave what must be deleted: solids live outside JavaScript's memory. */
export interface Scope {
  readonly kernel: SolidKernel;
  /** Deletes it when the scope ends; gives it back. */
  readonly keep: <T extends { delete(): void }>(thing: T) => T;
}

/** A solid of one thickness in the case frame, and the box that it fills. */
export interface Slab {
  readonly solid: Manifold;
  readonly box: Box3;
}

/**
 * A piece of wood: slabs that lie on each other's faces and share no wood.
 *
 * They are never fused. Two layers' walls are a hair apart where their programs were rounded, and a modeller
 * that must join them works a hundred times longer than one that may take each for itself.
 */
export type Wood = readonly Slab[];

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

/** Runs `work` and then deletes, whatever happened, all that it gave to `keep`. */
export function scoped<T>(kernel: SolidKernel, work: (scope: Scope) => T): T {
  const kept: { delete(): void }[] = [];
  const keep: Scope["keep"] = (thing) => {
    kept.push(thing);
    return thing;
  };
  try {
    return work({ kernel, keep });
  } finally {
    for (const thing of kept) thing.delete();
  }
}

/** The part as cut, stood up in the case: its layers, each as thick as it says, stacked from face A. */
export function woodOf(scope: Scope, cut: CutPart, pose: Pose): Wood {
  const { kernel, keep } = scope;
  const caseFromLayer = caseFromPanel(pose, cut);
  return cut.layers
    .filter((layer) => layer.solid.length > 0)
    .flatMap((layer) => {
      const loops = layer.solid.flatMap((region) => [region.outer, ...region.holes]);
      const chains = loops.map((loop) => flatten(loop).map(({ x, y }): Vec2 => [x, y]));
      const section = keep(keep(new kernel.CrossSection(chains)).simplify(FLATTENING_MM / 2));
      const slab = keep(keep(section.extrude(layer.to - layer.from)).translate(0, 0, layer.from));
      return slabs(keep(slab.transform(caseFromLayer)));
    });
}

/** A block of wood. */
export function blockOf(scope: Scope, box: Box3): Wood {
  return [{ solid: blockSolid(scope, box), box }];
}

/** What lies of the wood in the box. */
export function crop(scope: Scope, wood: Wood, box: Box3): Wood {
  const near = wood.filter((slab) => boxesMeet(slab.box, box));
  if (near.every((slab) => holds(box, slab.box))) return near;
  const block = blockSolid(scope, box);
  return near.flatMap((slab) =>
    holds(box, slab.box) ? slab : slabs(scope.keep(slab.solid.intersect(block))),
  );
}

/** What lies of the wood outside the box. */
export function without(scope: Scope, wood: Wood, box: Box3): Wood {
  if (!wood.some((slab) => boxesMeet(slab.box, box))) return wood;
  const block = blockSolid(scope, box);
  return wood.flatMap((slab) =>
    boxesMeet(slab.box, box) ? slabs(scope.keep(slab.solid.subtract(block))) : slab,
  );
}

/** The wood turned about an axis parallel to x; from y to z is positive. */
export function turned({ keep }: Scope, wood: Wood, axis: Point3, deg: number): Wood {
  const { cos, sin, y, z } = turnAbout(axis, deg);
  const turn: Mat4 = [1, 0, 0, 0, 0, cos, sin, 0, 0, -sin, cos, 0, 0, y, z, 1];
  return wood.flatMap(({ solid }) => slabs(keep(solid.transform(turn))));
}

/** The box around a box that was turned as `turned` turns wood. */
export function turnedBox({ min, max }: Box3, axis: Point3, deg: number): Box3 {
  const { cos, sin, y, z } = turnAbout(axis, deg);
  const corners = [min.y, max.y].flatMap((v) => [min.z, max.z].map((w) => [v, w] as const));
  const ys = corners.map(([v, w]) => v * cos - w * sin + y);
  const zs = corners.map(([v, w]) => v * sin + w * cos + z);
  return {
    min: { x: min.x, y: Math.min(...ys), z: Math.min(...zs) },
    max: { x: max.x, y: Math.max(...ys), z: Math.max(...zs) },
  };
}

/** y' = y cos − z sin + y₀, z' = y sin + z cos + z₀: a turn about an axis parallel to x. */
function turnAbout(axis: Point3, deg: number): { cos: number; sin: number; y: number; z: number } {
  const [cos, sin] = [cosine((deg * Math.PI) / 180), sine((deg * Math.PI) / 180)];
  return {
    cos,
    sin,
    y: axis.y - axis.y * cos + axis.z * sin,
    z: axis.z - axis.y * sin - axis.z * cos,
  };
}

/** As a slab, or as none where nothing is left. */
export function slabs(solid: Manifold): Wood {
  if (solid.isEmpty()) return [];
  const { min, max } = solid.boundingBox();
  return [{ solid, box: { min: point3(min), max: point3(max) } }];
}

export function boxesMeet(a: Box3, b: Box3, slack = 0): boolean {
  return AXES.every((axis) => a.min[axis] <= b.max[axis] + slack && b.min[axis] <= a.max[axis] + slack);
}

/** The box around boxes; they must be some. */
export function boxAround(boxes: readonly Box3[]): Box3 {
  const over = (points: readonly Point3[], pick: (a: number, b: number) => number): Point3 =>
    points.reduce((a, b) => ({ x: pick(a.x, b.x), y: pick(a.y, b.y), z: pick(a.z, b.z) }));
  return {
    min: over(
      boxes.map(({ min }) => min),
      Math.min,
    ),
    max: over(
      boxes.map(({ max }) => max),
      Math.max,
    ),
  };
}

const AXES = ["x", "y", "z"] as const;

function holds(outer: Box3, inner: Box3): boolean {
  return AXES.every((axis) => outer.min[axis] <= inner.min[axis] && inner.max[axis] <= outer.max[axis]);
}

function blockSolid({ kernel, keep }: Scope, { min, max }: Box3): Manifold {
  const cube = keep(kernel.Manifold.cube([max.x - min.x, max.y - min.y, max.z - min.z]));
  return keep(cube.translate(min.x, min.y, min.z));
}

/** The panel frame (x, y and depth from face A) to the case frame, column by column. */
function caseFromPanel(pose: Pose, { part, thickness }: CutPart): Mat4 {
  const [x, y, into] = [vectorOf(pose.x), vectorOf(pose.y), vectorOf(pose.into)];
  // Seen from face A, x right and y up, depth runs away from the eye: against x × y.
  if (tripleProduct(x, y, into) !== -1) {
    throw new RangeError(`pose of ${part}: ${pose.x} ${pose.y} ${pose.into} mirrors the panel`);
  }
  const datum = ((pose.datum === "B" ? 1 : 0) - (pose.stacked ?? 0)) * thickness;
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
