import {
  boundsOf,
  flatten,
  type Loop,
  once,
  type Point,
  polygon,
  type Region,
  rectangle,
  reversed,
  signedArea,
} from "@dryfit/geometry";
import type { Assembly, Box3, Direction, Part, Point3, Pose } from "@dryfit/joinery";

export type Axis = "x" | "y" | "z";

/** How one looks at the case: which ways of the case frame run right and up on the paper, and which comes at the eye. */
export interface Eye {
  readonly right: Direction;
  readonly up: Direction;
  readonly towards: Direction;
}

/** From the right, front at the left; from above, back at the top; from the front. */
export const fromRight: Eye = { right: "+y", up: "+z", towards: "+x" };
export const fromAbove: Eye = { right: "+x", up: "+y", towards: "+z" };
export const fromFront: Eye = { right: "+x", up: "+z", towards: "-y" };

export function axisOf(way: Direction): Axis {
  return way[1] as Axis;
}

function signOf(way: Direction): 1 | -1 {
  return way[0] === "+" ? 1 : -1;
}

/** Where a point of a part stands in the case, at mean thickness; `depth` from face A. */
export function stand(part: Part, pose: Pose, p: Point, depth: number): Point3 {
  const sunk = depth + ((pose.stacked ?? 0) - (pose.datum === "A" ? 0 : 1)) * part.thickness.mean;
  const at = { ...pose.origin };
  at[axisOf(pose.x)] += signOf(pose.x) * p.x;
  at[axisOf(pose.y)] += signOf(pose.y) * p.y;
  at[axisOf(pose.into)] += signOf(pose.into) * sunk;
  return at;
}

/** A point of the case as the eye sees it: x to the right, y up. */
export function seen(eye: Eye, p: Point3): Point {
  return { x: signOf(eye.right) * p[axisOf(eye.right)], y: signOf(eye.up) * p[axisOf(eye.up)] };
}

export function poseOf(assembly: Assembly, part: Part): Pose {
  const pose = assembly.poses[part.id];
  if (!pose) throw new RangeError(`${part.id} has no place in the case`);
  return pose;
}

/** The upright box that a part fills. */
export function boxInCase(part: Part, pose: Pose): Box3 {
  const { min, max } = boundsOf(part.outline);
  return spanned([stand(part, pose, min, 0), stand(part, pose, max, part.thickness.mean)]);
}

function spanned(points: readonly Point3[]): Box3 {
  const over = (pick: (...values: number[]) => number): Point3 => ({
    x: pick(...points.map((p) => p.x)),
    y: pick(...points.map((p) => p.y)),
    z: pick(...points.map((p) => p.z)),
  });
  return { min: over(Math.min), max: over(Math.max) };
}

export function boxOfCase(assembly: Assembly): Box3 {
  const boxes = assembly.parts.map((part) => boxInCase(part, poseOf(assembly, part)));
  return spanned(boxes.flatMap(({ min, max }) => [min, max]));
}

/** True where the eye looks squarely at the part's face. */
export function isFacing(eye: Eye, pose: Pose): boolean {
  return axisOf(eye.towards) === axisOf(pose.into);
}

/** A loop on the part's face as an eye that looks squarely at it sees it. Its winding may turn round. */
export function faceLoop(eye: Eye, part: Part, pose: Pose, loop: Loop): Loop {
  const at = (p: Point) => seen(eye, stand(part, pose, p, 0));
  const [o, x, y] = [at({ x: 0, y: 0 }), at({ x: 1, y: 0 }), at({ x: 0, y: 1 })];
  const turn = Math.sign((x.x - o.x) * (y.y - o.y) - (x.y - o.y) * (y.x - o.x));
  return { closed: true, vertices: loop.vertices.map((v) => ({ ...at(v), bulge: v.bulge * turn })) };
}

/** A box as the eye sees it. */
export function boxLoop(eye: Eye, { min, max }: Box3): Loop {
  const [a, b] = [seen(eye, min), seen(eye, max)];
  return rectangle(
    { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y) },
    { x: Math.max(a.x, b.x), y: Math.max(a.y, b.y) },
  );
}

/** The wood of a part that a plane square to the eye's axis cuts, as the eye sees it. */
export function sectionOf(eye: Eye, part: Part, pose: Pose, at: number): readonly Region[] {
  const axis = axisOf(eye.towards);
  if (axisOf(pose.into) === axis) {
    const { min, max } = boxInCase(part, pose);
    if (at <= min[axis] || at >= max[axis]) return [];
    return [{ outer: faceLoop(eye, part, pose, part.outline), holes: [] }];
  }
  const [cutAxis, way] = axisOf(pose.x) === axis ? (["x", pose.x] as const) : (["y", pose.y] as const);
  const line = signOf(way) * (at - pose.origin[axis]);
  const onPaper = (s: number, depth: number): Point =>
    seen(eye, stand(part, pose, cutAxis === "x" ? { x: line, y: s } : { x: s, y: line }, depth));
  return runs(slabs(part, cutAxis, line)).map((run) => {
    const outer = polygon([
      ...run.flatMap(({ from, to, top }) => [onPaper(from, top), onPaper(to, top)]),
      ...[...run].reverse().flatMap(({ from, to, bottom }) => [onPaper(to, bottom), onPaper(from, bottom)]),
    ]);
    // Which way round it runs hangs on the way that the part stands.
    return { outer: signedArea(outer) < 0 ? reversed(outer) : outer, holes: [] };
  });
}

/** Slabs that hang together by more than an edge. */
function runs(all: readonly Slab[]): readonly (readonly Slab[])[] {
  const found: Slab[][] = [];
  for (const slab of all) {
    const last = found.at(-1)?.at(-1);
    const joins = last?.to === slab.from && Math.max(last.top, slab.top) < Math.min(last.bottom, slab.bottom);
    if (joins) found.at(-1)!.push(slab);
    else found.push([slab]);
  }
  return found;
}

interface Slab {
  readonly from: number;
  readonly to: number;
  /** Depths from face A between which there is wood. */
  readonly top: number;
  readonly bottom: number;
}

/** Wood along a line across the panel, stretch by stretch. */
function slabs(part: Part, axis: "x" | "y", line: number): readonly Slab[] {
  const t = part.thickness.mean;
  const wood = stretches([part.outline], axis, line);
  const holes = part.features.flatMap((f) => (f.kind === "opening" ? stretches([f.loop], axis, line) : []));
  const recesses = part.features.flatMap((f) =>
    f.kind === "recess"
      ? stretches([f.region.outer, ...f.region.holes], axis, line).map((run) => ({ ...run, ...f }))
      : [],
  );
  const ends = [...wood, ...holes, ...recesses].flatMap(({ from, to }) => [from, to]).sort((a, b) => a - b);
  const pieces = ends.slice(1).flatMap((to, i): Slab[] => {
    const from = ends[i]!;
    const middle = (from + to) / 2;
    const here = (run: { from: number; to: number }) => run.from < middle && middle < run.to;
    if (!wood.some(here) || holes.some(here)) return [];
    const depth = (face: "A" | "B") =>
      Math.max(0, ...recesses.filter((r) => r.face === face && here(r)).map((r) => r.depth));
    const slab = { from, to, top: depth("A"), bottom: t - depth("B") };
    return slab.bottom > slab.top ? [slab] : [];
  });
  const joined: Slab[] = [];
  for (const piece of pieces) {
    const last = joined.at(-1);
    const goesOn = last?.to === piece.from && last.top === piece.top && last.bottom === piece.bottom;
    if (goesOn) joined[joined.length - 1] = { ...last, to: piece.to };
    else joined.push(piece);
  }
  return joined;
}

/** Where a line across the panel runs inside these loops. */
function stretches(
  loops: readonly Loop[],
  axis: "x" | "y",
  line: number,
): readonly { from: number; to: number }[] {
  const other = axis === "x" ? "y" : "x";
  const hits = loops
    .flatMap((loop) => {
      const points = chordsOf(loop);
      return points.flatMap((p, i) => {
        const q = points[(i + 1) % points.length]!;
        if (p[axis] <= line === q[axis] <= line) return [];
        return [p[other] + ((q[other] - p[other]) * (line - p[axis])) / (q[axis] - p[axis])];
      });
    })
    .sort((a, b) => a - b);
  return hits.flatMap((from, i) =>
    i % 2 === 0 && hits[i + 1] !== undefined ? [{ from, to: hits[i + 1]! }] : [],
  );
}

const chordsOf = once((loop: Loop) => flatten(loop, 0.01));
