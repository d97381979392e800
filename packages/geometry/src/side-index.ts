import { boxTree } from "./box-tree.ts";
import type { ChordRing } from "./chords.ts";
import { GRID_MM } from "./clipper.ts";
import type { Segment } from "./curve.ts";
import type { Point } from "./point.ts";

/** Finds which line or arc a side of a clipped ring came from. */
export interface SideIndex {
  /** The owner of the side between two points, or nothing where the clipper made it up. */
  readonly ownerOf: (from: Point, to: Point) => Segment | undefined;
}

/** A clipped side lies on the side that it came from but for rounding at either end. */
const REACH_MM: number = 3 * GRID_MM;

export function sideIndex(rings: readonly ChordRing[]): SideIndex {
  const { ends, owners } = sidesOf(rings);
  const tree = boxTree(boxesRound(ends));
  let last = 0;

  /** How far the shorter of two sides strays from the longer one's line, if they run together at all. */
  const stray = (side: number, from: Point, to: Point): number => {
    const [px, py, qx, qy] = [ends[4 * side]!, ends[4 * side + 1]!, ends[4 * side + 2]!, ends[4 * side + 3]!];
    const own = hypotenuse(qx - px, qy - py);
    const given = hypotenuse(to.x - from.x, to.y - from.y);
    if (own >= given)
      return Math.max(offSide(from.x, from.y, px, py, qx, qy), offSide(to.x, to.y, px, py, qx, qy));
    // The clipper may join sides in line; but a crumb lies along anything.
    if (own < given / 2) return Infinity;
    return Math.max(offSide(px, py, from.x, from.y, to.x, to.y), offSide(qx, qy, from.x, from.y, to.x, to.y));
  };

  const ownerOf = (from: Point, to: Point): Segment | undefined => {
    // Sides mostly come in their old order, one way or the other.
    for (const side of [last + 1, last - 1, last]) {
      if (side >= 0 && side < owners.length && stray(side, from, to) <= GRID_MM) {
        last = side;
        return owners[side];
      }
    }
    let [best, least] = [-1, REACH_MM];
    const [x, y] = [(from.x + to.x) / 2, (from.y + to.y) / 2];
    tree.visit(x, y, x, y, (side) => {
      const gap = stray(side, from, to);
      if (gap < least) [best, least] = [side, gap];
    });
    if (best < 0) return undefined;
    last = best;
    return owners[best];
  };
  return { ownerOf };
}

/** Every owned side's two ends as the clipper saw them, four numbers each. */
function sidesOf(rings: readonly ChordRing[]): { ends: Float64Array; owners: Segment[] } {
  const count = rings.reduce(
    (sum, { owners }) => sum + owners.filter((owner) => owner !== undefined).length,
    0,
  );
  const ends = new Float64Array(4 * count);
  const owners: Segment[] = [];
  for (const ring of rings) {
    ring.owners.forEach((owner, i) => {
      if (owner === undefined) return;
      const [p, q] = [ring.points[i]!, ring.points[(i + 1) % ring.points.length]!];
      const at = 4 * owners.length;
      ends[at] = rounded(p.x);
      ends[at + 1] = rounded(p.y);
      ends[at + 2] = rounded(q.x);
      ends[at + 3] = rounded(q.y);
      owners.push(owner);
    });
  }
  return { ends, owners };
}

function boxesRound(ends: Float64Array): Float64Array {
  const boxes = new Float64Array(ends.length);
  for (let i = 0; i < ends.length; i += 4) {
    boxes[i] = Math.min(ends[i]!, ends[i + 2]!) - REACH_MM;
    boxes[i + 1] = Math.min(ends[i + 1]!, ends[i + 3]!) - REACH_MM;
    boxes[i + 2] = Math.max(ends[i]!, ends[i + 2]!) + REACH_MM;
    boxes[i + 3] = Math.max(ends[i + 1]!, ends[i + 3]!) + REACH_MM;
  }
  return boxes;
}

function rounded(x: number): number {
  return Math.round(x / GRID_MM) * GRID_MM;
}

/** From (x, y) to the side between p and q. */
function offSide(x: number, y: number, px: number, py: number, qx: number, qy: number): number {
  const [dx, dy] = [qx - px, qy - py];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : ((x - px) * dx + (y - py) * dy) / square;
  const share = Math.max(0, Math.min(1, t));
  return hypotenuse(x - px - dx * share, y - py - dy * share);
}

/** Without `Math.hypot`'s care for huge and tiny numbers, which costs more than all the rest here. */
function hypotenuse(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}
