import { Clipper64, ClipType, FillRule, type Paths64, type PolyPath64, PolyTree64 } from "clipper2-ts";
import type { Point } from "./point.ts";
import { withoutSpikes } from "./spikes.ts";
import { SAME_POINT_MM } from "./tolerance.ts";

/** The clipper counts in whole steps of this many mm: positions closer than that are one. */
export const GRID_MM: number = SAME_POINT_MM;

/** A closed ring of points and the rings directly inside it: outers hold holes, holes hold islands. */
export interface Ring {
  readonly points: readonly Point[];
  readonly inside: readonly Ring[];
}

export type ClipKind = "union" | "difference" | "intersection";

export type Fill = "nonzero" | "positive";

const CLIP: Record<ClipKind, ClipType> = {
  union: ClipType.Union,
  difference: ClipType.Difference,
  intersection: ClipType.Intersection,
};

/**
 * The boolean of polygons given as rings: outers come back counter-clockwise, holes clockwise.
 *
 * The one place that knows the clipping library. Points are rounded to GRID_MM on the way in;
 * the result's new points are within two steps of the true crossing.
 */
export function clip(
  kind: ClipKind,
  subject: readonly (readonly Point[])[],
  tool: readonly (readonly Point[])[],
  fill: Fill,
): readonly Ring[] {
  const clipper = new Clipper64();
  clipper.addSubject(onGrid(subject));
  clipper.addClip(onGrid(tool));
  const tree = new PolyTree64();
  clipper.execute(CLIP[kind], fill === "positive" ? FillRule.Positive : FillRule.NonZero, tree);
  return ringsIn(tree);
}

function ringsIn(node: PolyPath64): readonly Ring[] {
  const rings: Ring[] = [];
  for (let i = 0; i < node.count; i++) {
    const child = node.child(i);
    rings.push({ points: (child.poly ?? []).map(offGrid), inside: ringsIn(child) });
  }
  return rings;
}

/** The clipper loses pieces beside level spikes, and it trips over empty rings. */
function onGrid(rings: readonly (readonly Point[])[]): Paths64 {
  return rings
    .map((points) =>
      withoutSpikes(
        points.map(({ x, y }) => ({ x: Math.round(x / GRID_MM), y: Math.round(y / GRID_MM) })),
        0,
      ),
    )
    .filter((points) => points.length > 0);
}

function offGrid({ x, y }: { x: number; y: number }): Point {
  return { x: x * GRID_MM, y: y * GRID_MM };
}
