import {
  cross,
  difference,
  directionAt,
  distanceTo,
  flatten,
  type Loop,
  offset,
  type Region,
  segments,
} from "@dryfit/geometry";

/** A turn of less is no corner: neighbours of a fitted curve meet a little off tangent. Radians. */
const CORNER = 0.02;

/** How far a corner of two sides turns left, as a sine and a sense. */
interface Corner {
  readonly left: number;
  /** 0 where the corner is sharp. */
  readonly radius: number;
}

/** The tightest corner into which a cutter must go that removes the region: 0 where one is sharp, Infinity without any. */
export function tightestInside(region: Region): number {
  const corners = [region.outer, ...region.holes].flatMap(cornersOf).filter(({ left }) => left > 0);
  return Math.min(Number.POSITIVE_INFINITY, ...corners.map(({ radius }) => radius));
}

/** Corners of wood that stand into the region and are sharp: a bush rounds them. */
export function sharpWood(region: Region): number {
  return [region.outer, ...region.holes].flatMap(cornersOf).filter((c) => c.left < 0 && c.radius === 0)
    .length;
}

/** The tightest corner of a part into which a cutter that runs round it must go. */
export function tightestOutside(outline: Loop): number {
  const corners = cornersOf(outline).filter(({ left }) => left < 0);
  return Math.min(Number.POSITIVE_INFINITY, ...corners.map(({ radius }) => radius));
}

/** The part's own corners that are sharp. */
export function sharpCorners(outline: Loop): number {
  return cornersOf(outline).filter(({ left, radius }) => left > 0 && radius === 0).length;
}

/** How wide the region is where it is narrowest, mm: the widest cutter that passes everywhere, by halving. */
export function narrowest(region: Region, most: number): number {
  const passes = (width: number): boolean => offset([region], -width / 2).length === 1;
  if (passes(most)) return most;
  let [low, high] = [0, most];
  while (high - low > WIDTH_MM) {
    const middle = (low + high) / 2;
    if (passes(middle)) low = middle;
    else high = middle;
  }
  return high;
}

/** Closer a width need not be known: a calliper shows hundredths. mm. */
const WIDTH_MM = 0.002;

/** How far `shape` reaches out of `other` at most, mm; endlessly where there is nothing to reach out of. */
export function beyond(shape: readonly Region[], other: readonly Region[]): number {
  const edges = loopsOf(other);
  const points = loopsOf(difference(shape, other)).flatMap((loop) => flatten(loop));
  return Math.max(0, ...points.map((p) => Math.min(Infinity, ...edges.map((loop) => distanceTo(loop, p)))));
}

function loopsOf(regions: readonly Region[]): readonly Loop[] {
  return regions.flatMap(({ outer, holes }) => [outer, ...holes]);
}

function cornersOf(loop: Loop): readonly Corner[] {
  const sides = segments(loop);
  return sides.flatMap((side, i): Corner[] => {
    const next = sides[(i + 1) % sides.length]!;
    const turn = cross(directionAt(side, 1), directionAt(next, 0));
    const sharp: Corner[] = Math.abs(turn) > CORNER ? [{ left: turn, radius: 0 }] : [];
    return side.kind === "arc" ? [{ left: side.sweep, radius: side.radius }, ...sharp] : sharp;
  });
}
