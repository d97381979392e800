import { type Loop, type Point, polygon, type Region, rectangle, unionFlat } from "@dryfit/geometry";
import { caseFromPanel, type Point3, type Pose } from "@dryfit/joinery";
import type { CutPart } from "@dryfit/verify";
import { loopsOf } from "./solid-faces.ts";

export type Axis = keyof Point3;

/** The plane's own axes, right and up as one looks at it: along y from the front, along x from the right, along z from above. */
export const PLANE: Readonly<Record<Axis, readonly [right: Axis, up: Axis]>> = {
  x: ["y", "z"],
  y: ["x", "z"],
  z: ["x", "y"],
};

/** The wood of a part as cut that the plane `axis` = `at` goes through. x to the right and y up, mm of the case. */
export function planeSection(cut: CutPart, pose: Pose, axis: Axis, at: number): readonly Region[] {
  const [right, up] = PLANE[axis];
  const place = (x: number, y: number, depth: number): Point => {
    const p = caseFromPanel(pose, { x, y }, depth, cut.thickness);
    return { x: p[right], y: p[up] };
  };
  const origin = caseFromPanel(pose, { x: 0, y: 0 }, 0, cut.thickness)[axis];
  const steps = (way: Pose["x"]): number => (way[0] === "+" ? 1 : -1) * (at - origin);
  if (pose.into[1] === axis) {
    const depth = steps(pose.into);
    const layer = cut.layers.find(({ from, to }) => from <= depth && depth < to);
    const seen = (loop: Loop): Loop => polygon(loop.vertices.map(({ x, y }) => place(x, y, depth)));
    // Seen on the panel's other face its loops run the other way round; the union puts them right.
    return unionFlat(
      (layer?.solid ?? []).map(({ outer, holes }) => ({ outer: seen(outer), holes: holes.map(seen) })),
    );
  }
  const over = pose.x[1] === axis ? "x" : "y";
  const line = steps(over === "x" ? pose.x : pose.y) + ASIDE_MM;
  const slabs = cut.layers.flatMap(({ from, to, solid }) =>
    runsOn(loopsOf(solid), over, line).map(([a, b]) => {
      const corner = (s: number, depth: number): Point =>
        over === "x" ? place(line, s, depth) : place(s, line, depth);
      return boxOf(corner(a, from), corner(b, to));
    }),
  );
  return unionFlat(slabs);
}

/** A section goes past corners, never through them, mm. */
const ASIDE_MM = 0.00037;

/** Where a line across loops (`over` = `line`) runs in the wood: pairs of the other coordinate, in order. */
export function runsOn(
  loops: readonly (readonly Point[])[],
  over: "x" | "y",
  line: number,
): readonly (readonly [number, number])[] {
  const other = over === "x" ? "y" : "x";
  const hits = loops
    .flatMap((loop) =>
      loop.flatMap((p, i) => {
        const q = loop[(i + 1) % loop.length]!;
        if (p[over] <= line === q[over] <= line) return [];
        return [p[other] + ((q[other] - p[other]) * (line - p[over])) / (q[over] - p[over])];
      }),
    )
    .sort((a, b) => a - b);
  return hits.flatMap((from, i) =>
    i % 2 === 0 && hits[i + 1] !== undefined ? [[from, hits[i + 1]!] as const] : [],
  );
}

function boxOf(a: Point, b: Point): Region {
  return {
    outer: rectangle(
      { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y) },
      { x: Math.max(a.x, b.x), y: Math.max(a.y, b.y) },
    ),
    holes: [],
  };
}
