import { arccosine, arctangent, CHIP_MM, type Point } from "@dryfit/geometry";

/** Where a cutter's axis has been, or may be: all of a round place about `at`. */
export interface Disc {
  readonly at: Point;
  readonly radius: number;
}

/** A stretch of a circle, radians counter-clockwise from the x axis; `from` is less than `to`. */
export type Stretch = readonly [from: number, to: number];

export const WHOLE: Stretch = [0, 2 * Math.PI];

/** What of a stretch of a circle lies outside all discs, each grown by `grown`. */
export function outsideDiscs(
  circle: Disc,
  within: Stretch,
  discs: readonly Disc[],
  grown: number,
): Stretch[] {
  const { at, radius } = circle;
  let open: Stretch[] = [within];
  // The latest discs lie nearest, most often.
  for (let i = discs.length - 1; i >= 0 && open.length > 0; i--) {
    const disc = discs[i]!;
    const reach = disc.radius + grown;
    const [x, y] = [disc.at.x - at.x, disc.at.y - at.y];
    const away = x * x + y * y;
    if (reach <= 0 || away >= (radius + reach) ** 2) continue;
    const far = Math.sqrt(away);
    if (far + radius <= reach) return [];
    const cosine = (away + radius * radius - reach * reach) / (2 * far * radius);
    if (!(cosine < 1)) continue;
    const half = arccosine(cosine);
    open = without(open, arctangent(y, x) - half, arctangent(y, x) + half);
  }
  return open;
}

/**
 * How much of the rim of a cutter of this radius, at a place and under way in a direction, is not in cleared discs.
 * Where `chips` says so, a layer that is thinner than a chip all over does not count.
 */
export function engagedAt(
  at: Point,
  heading: number,
  discs: readonly Disc[],
  radius: number,
  chips = false,
): number {
  const ahead: Stretch = [heading - Math.PI / 2, heading + Math.PI / 2];
  const rim = { at, radius };
  return outsideDiscs(rim, ahead, discs, radius + ROUNDED_MM)
    .filter((stretch) => !chips || outsideDiscs(rim, stretch, discs, radius + THIN_MM).length > 0)
    .reduce((sum, [from, to]) => sum + to - from, 0);
}

/** What print rounds away, mm. */
const ROUNDED_MM = 0.0005;
/** A layer thinner than this no tooth cuts, mm: somewhat less than a chip. */
export const THIN_MM: number = 0.7 * CHIP_MM;

function without(open: readonly Stretch[], from: number, to: number): Stretch[] {
  const left: Stretch[] = [];
  for (const [a, b] of open) {
    const turns = Math.ceil((a - to) / (2 * Math.PI)) * 2 * Math.PI;
    let start = a;
    for (let turn = turns; from + turn < b; turn += 2 * Math.PI) {
      if (from + turn > start) left.push([start, from + turn]);
      start = Math.max(start, to + turn);
    }
    if (start < b) left.push([start, b]);
  }
  return left;
}
