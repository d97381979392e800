import {
  arctangent,
  boundsOf,
  CUT_MM,
  circle,
  contains,
  cross,
  differenceFlat,
  directionAt,
  distance,
  intersection,
  intersectionFlat,
  type Loop,
  OUTPUT_STEP_MM,
  offsetFlat,
  onceWith,
  type Point,
  pathOf,
  placeRegion,
  type Region,
  reversed,
  runOut,
  segments,
  sine,
  sweepFlat,
  tangentOf,
  union,
} from "@dryfit/geometry";
import { LEAST_HELIX } from "./bore.ts";
import { slotLines } from "./clear-slot.ts";
import { type Known, recalled } from "./known.ts";
import { drawnOf, onFace, type Shape, type Task } from "./plan-task.ts";

/** How far a round cutter gets into a shape, in the shape's own frame. */
export interface Fit {
  /** False where it leaves more than the round of sharp inside corners. */
  readonly fits: boolean;
  /** The sharp inside corners that it leaves round. */
  readonly corners: readonly Point[];
  readonly runOut: RunOut;
  /** What a cutter of this radius removes, run out; nothing where it goes round, or down. */
  readonly removed: Removed;
}

interface Removed {
  readonly radius: number;
  readonly regions: readonly Region[];
}

/** How far past the outline an open recess is cut. */
interface RunOut {
  /** Beyond the cutter's radius, mm. */
  readonly beyond: number;
  /** About these places a radius more: there the recess's mouth is a fillet of the outline. */
  readonly mouths: readonly Point[];
}

/** The same as `fitOf`, worked out once for equal shapes. */
export function knownFit(known: Known, shape: Shape, radius: number, beyond: number): Fit {
  return recalled(known, "fit", [shape, radius, beyond], () => fitOf(shape, radius, beyond));
}

/** The wood that must go where a cutter of `radius` does the task, as seen on the face that is up. */
export function woodToGo(task: Task, radius: number, { removed, runOut }: Fit): readonly Region[] {
  const { shape } = drawnOf(task);
  if (shape.kind !== "pocket" && shape.kind !== "inside") return [];
  const regions = radius === removed.radius ? removed.regions : removedBy(shape, radius, runOut);
  const { faceFromDrawn } = onFace(task);
  return regions.map((region) => placeRegion(faceFromDrawn, region));
}

/**
 * What the cutter's radius makes of the shape: every place it cannot reach is a sharp corner, or it does not fit.
 * An open recess is run out by `beyond` past the radius; where its mouth is a fillet of the outline, by a radius more.
 */
function fitOf(shape: Shape, radius: number, beyond: number): Fit {
  const plain = { beyond, mouths: [] };
  if (shape.kind === "hole") {
    const wider = shape.diameter - 2 * radius;
    const fits = Math.abs(wider) <= CUT_MM / 2 || wider >= LEAST_HELIX * 2 * radius;
    return { fits, corners: [], runOut: plain, removed: { radius, regions: [] } };
  }
  const near = reachOf(shape, radius, plain);
  if (near.missed.length === 0 || shape.kind !== "pocket") return fitFrom(near);
  const farther = reachOf(shape, radius, { beyond, mouths: near.missed.map(middleOf) });
  if (farther.missed.length === 0) return fitFrom(farther);
  return fitFrom(reachOf(shape, radius, { beyond: radius + beyond, mouths: [] }));
}

/** What a cutter leaves of a shape. */
interface Reach extends Omit<Fit, "fits"> {
  /** Pieces that no sharp corner excuses. */
  readonly missed: readonly Region[];
}

function fitFrom({ missed, ...reach }: Reach): Fit {
  return { ...reach, fits: missed.length === 0 };
}

function reachOf(shape: Exclude<Shape, { kind: "hole" }>, radius: number, runOut: RunOut): Reach {
  const removed = shape.kind === "outside" ? [] : removedBy(shape, radius, runOut);
  const { left, corners } =
    shape.kind === "outside" ? leftAround(shape.loop, radius) : leftIn(shape, radius, removed);
  const pieces = left.filter((piece) => offsetFlat([piece], -CUT_MM / 2).length > 0);
  const owners = pieces.map((piece) => corners.find((corner) => holds(corner, piece)));
  return {
    missed: pieces.filter((_, i) => owners[i] === undefined),
    corners: [...new Set(owners)].flatMap((owner) => (owner === undefined ? [] : [owner.at])),
    runOut,
    removed: { radius, regions: removed },
  };
}

function middleOf({ outer }: Region): Point {
  const { min, max } = boundsOf(outer);
  return { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
}

/** Wood that the cutter leaves, and the sharp corners that may excuse it. */
interface Left {
  readonly left: readonly Region[];
  readonly corners: readonly Corner[];
}

/** Going round a part: what closing the part by the cutter's radius adds to it. */
function leftAround(loop: Loop, radius: number): Left {
  if (isConvex(loop)) return { left: [], corners: [] };
  const part = [{ outer: loop, holes: [] }];
  const left = differenceFlat(offsetFlat(offsetFlat(part, radius), -radius), part);
  return { left, corners: sharpCorners(reversed(loop), radius) };
}

/** Any cutter gets all round a part that bends one way only. */
function isConvex(loop: Loop): boolean {
  const run = segments(loop);
  return run.every((after, i) => {
    const [a, b] = [directionAt(run.at(i - 1)!, 1), directionAt(after, 0)];
    return cross(a, b) >= -STRAIGHT && (after.kind === "line" || after.sweep > 0);
  });
}

/** The sine of a turn that is none: float noise. */
const STRAIGHT = 1e-9;

function leftIn(
  shape: Shape & { kind: "pocket" | "inside" },
  radius: number,
  removed: readonly Region[],
): Left {
  const asked =
    shape.kind === "inside" ? removed : intersectionFlat(removed, [{ outer: shape.outline, holes: [] }]);
  const opened = differenceFlat(asked, offsetFlat(offsetFlat(removed, -radius), radius));
  const lines = opened.length === 0 ? [] : slotLines(removed, radius);
  const left = lines.length === 0 ? opened : differenceFlat(opened, sweepFlat(lines.map(pathOf), radius));
  const loops = removed.flatMap(({ outer, holes }) => [outer, ...holes]);
  return { left, corners: loops.flatMap((loop) => sharpCorners(loop, radius)) };
}

/** The wood that is to go, run out over the outline where the cut is open there. */
const removedBy: (
  shape: Shape & { kind: "pocket" | "inside" },
  radius: number,
  runOut: RunOut,
) => readonly Region[] = onceWith((shape, radius, { beyond, mouths }) => {
  if (shape.kind === "inside") return [{ outer: shape.loop, holes: [] }];
  const near = runOut(shape.region, shape.outline, radius + beyond);
  if (mouths.length === 0) return near;
  const around = mouths.map((at): Region => ({ outer: circle(at, MOUTH * radius), holes: [] }));
  const far = runOut(shape.region, shape.outline, 2 * radius + beyond);
  return union([...near, ...intersection(far, union(around))]);
});

/** So many radii round a mouth a recess is run out farther: a cutter's width, and the mouth. */
const MOUTH = 3;

interface Corner {
  readonly at: Point;
  /** How far from the vertex the cutter leaves the walls. */
  readonly reach: number;
}

/** The vertices where the removed wood ends in a sharp corner that the cutter leaves visibly round. */
function sharpCorners(loop: Loop, radius: number): Corner[] {
  const run = segments(loop);
  return run.flatMap((after, i) => {
    const before = run[(i + run.length - 1) % run.length]!;
    const [a, b] = [directionAt(before, 1), directionAt(after, 0)];
    const turn = arctangent(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
    const half = (Math.PI - turn) / 2;
    const left = radius * (1 / sine(half) - 1);
    return turn > 0 && left > OUTPUT_STEP_MM ? [{ at: after.from, reach: radius / tangentOf(half) }] : [];
  });
}

function holds({ at, reach }: Corner, piece: Region): boolean {
  return (
    piece.outer.vertices.every((v) => distance(v, at) <= reach + CUT_MM) &&
    (contains(piece.outer, at) !== "outside" || piece.outer.vertices.some((v) => distance(v, at) <= CUT_MM))
  );
}
