import {
  CUT_MM,
  contains,
  difference,
  directionAt,
  distance,
  intersection,
  type Loop,
  OUTPUT_STEP_MM,
  offset,
  type Point,
  pathOf,
  type Region,
  runOut,
  segments,
  sweep,
} from "@dryfit/geometry";
import { LEAST_HELIX } from "./bore.ts";
import { slotLines } from "./clear-slot.ts";
import type { Shape } from "./plan-task.ts";

/** How far a round cutter gets into a shape. */
export interface Fit {
  /** False where it leaves more than the round of sharp inside corners. */
  readonly fits: boolean;
  /** The sharp inside corners that it leaves round. */
  readonly corners: readonly Point[];
  /** How far past the outline an open recess must be cut beyond the cutter's radius, mm. */
  readonly beyond: number;
}

/**
 * What the cutter's radius makes of the shape: every place it cannot reach is a sharp corner, or it does not fit.
 * An open recess is run out by `beyond` past the radius; where its mouth is a fillet of the outline, by a radius more.
 */
export function fitOf(shape: Shape, radius: number, beyond: number): Fit {
  if (shape.kind === "hole") {
    const wider = shape.diameter - 2 * radius;
    const fits = Math.abs(wider) <= CUT_MM / 2 || wider >= LEAST_HELIX * 2 * radius;
    return { fits, corners: [], beyond };
  }
  const near = reachOf(shape, radius, beyond);
  return near.fits || shape.kind !== "pocket" ? near : reachOf(shape, radius, radius + beyond);
}

function reachOf(shape: Exclude<Shape, { kind: "hole" }>, radius: number, beyond: number): Fit {
  const removed = removedBy(shape, radius, beyond);
  const reached = [
    ...offset(offset([...removed], -radius), radius),
    ...sweep(slotLines(removed, radius).map(pathOf), radius),
  ];
  const left = difference(intersection(removed, [within(shape, radius)]), reached);
  const pieces = left.filter((piece) => offset([piece], -CUT_MM / 2).length > 0);
  const sharp = removed.flatMap(({ outer, holes }) =>
    [outer, ...holes].flatMap((loop) => sharpCorners(loop, radius)),
  );
  const owners = pieces.map((piece) => sharp.find((corner) => holds(corner, piece)));
  return {
    fits: removed.length > 0 && owners.every((owner) => owner !== undefined),
    corners: [...new Set(owners)].flatMap((owner) => (owner === undefined ? [] : [owner.at])),
    beyond,
  };
}

/** The wood that is to go, run out over the outline where the cut is open there. */
export function removedBy(shape: Exclude<Shape, { kind: "hole" }>, radius: number, beyond: number): Region[] {
  if (shape.kind === "pocket") return runOut(shape.region, shape.outline, radius + beyond);
  if (shape.kind === "inside") return [{ outer: shape.loop, holes: [] }];
  const part = [{ outer: shape.loop, holes: [] }];
  // A strip as wide as two cutters: what the profile must find room in.
  return difference(offset(part, 4 * radius), part);
}

/** Where leaving wood matters: within the part, or close around it. */
function within(shape: Exclude<Shape, { kind: "hole" }>, radius: number): Region {
  if (shape.kind === "pocket") return { outer: shape.outline, holes: [] };
  if (shape.kind === "inside") return { outer: shape.loop, holes: [] };
  return offset([{ outer: shape.loop, holes: [] }], radius)[0]!;
}

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
    const turn = Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
    const half = (Math.PI - turn) / 2;
    const left = radius * (1 / Math.sin(half) - 1);
    return turn > 0 && left > OUTPUT_STEP_MM ? [{ at: after.from, reach: radius / Math.tan(half) }] : [];
  });
}

function holds({ at, reach }: Corner, piece: Region): boolean {
  return (
    piece.outer.vertices.every((v) => distance(v, at) <= reach + CUT_MM) &&
    (contains(piece.outer, at) !== "outside" || piece.outer.vertices.some((v) => distance(v, at) <= CUT_MM))
  );
}
