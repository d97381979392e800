import {
  areaOf,
  boundsOf,
  difference,
  distanceTo,
  type Loop,
  offset,
  type Point,
  type Region,
} from "@dryfit/geometry";
import type { DrawnShape } from "./drawing.ts";

/** A drawn cutout as the cutter leaves it, about the middle of its box. */
export interface CutShape {
  readonly loops: readonly Loop<"preset">[];
  /** Contours that the cutter does not fit into, and those that it parts at their narrows. */
  readonly lost: number;
  readonly parted: number;
  /** How far short of a drawn point a round corner stays, mm. */
  readonly rounded: number;
}

/** Inside corners carry the cutter's radius, as everywhere in the model. */
export function cutShape({ loops }: DrawnShape, r: number): CutShape {
  const { min, max } = boundsOf(loops);
  const middle = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
  const cut = loops.map((loop) => {
    const [region] = offset([{ outer: loop, holes: [] }], 0);
    const drawn = region ?? { outer: loop, holes: [] };
    const reached = offset(offset([drawn], -r), r);
    return { drawn, reached };
  });
  return {
    loops: cut.flatMap(({ reached }) => reached.map(({ outer }) => about(outer, middle))),
    lost: cut.filter(({ reached }) => reached.length === 0).length,
    parted: cut.filter(({ reached }) => reached.length > 1).length,
    rounded: Math.max(0, ...cut.map(({ drawn, reached }) => shortOf(drawn, reached))),
  };
}

function about(loop: Loop, middle: Point): Loop<"preset"> {
  return {
    closed: true,
    vertices: loop.vertices.map((v) => ({ ...v, x: v.x - middle.x, y: v.y - middle.y })),
  } as Loop<"preset">;
}

/** The farthest that a drawn point lies from what is reached. */
function shortOf(drawn: Region, reached: readonly Region[]): number {
  if (reached.length === 0 || areaOf(difference([drawn], reached)) < 1e-3) return 0;
  return Math.max(
    0,
    ...drawn.outer.vertices.map((p) => Math.min(...reached.map(({ outer }) => distanceTo(outer, p)))),
  );
}
