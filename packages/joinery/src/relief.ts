import { type Loop, type Point, SAME_POINT_MM } from "@dryfit/geometry";
import type { OpeningRules, Relief } from "./design.ts";

/**
 * How an opening's corners are relieved. Corners that are round anyway, by shape or by design, want no relief:
 * only those of the cutter's own radius `r` get one.
 */
export function reliefOf({ relief, size }: OpeningRules, r: number): Relief {
  const { corner } = size;
  return corner !== undefined && corner <= r + SAME_POINT_MM ? relief : "none";
}

/**
 * A box about the origin whose corners a square part can fill: at each the cutter runs on until it touches the
 * corner (diagonal), or along one wall until the other wall's line (along-width, along-height).
 *
 * Each relief is half a turn of the cutter's radius, from wall to wall: the drawn line is the cut line.
 * Derived: diagonal, the centre is at distance r from the corner; along a wall, at r from it on the other's line.
 */
export function relievedBox(
  width: number,
  height: number,
  { relief, r }: { readonly relief: Exclude<Relief, "none">; readonly r: number },
): Loop<"preset"> {
  const { x, y } = takenOf(relief, r);
  const [w, h] = [width / 2, height / 2];
  const arc = (from: Point<"preset">, to: Point<"preset">) => [
    { ...from, bulge: 1 },
    { ...to, bulge: 0 },
  ];
  return {
    closed: true,
    vertices: [
      ...arc({ x: w - x, y: -h }, { x: w, y: y - h }),
      ...arc({ x: w, y: h - y }, { x: w - x, y: h }),
      ...arc({ x: x - w, y: h }, { x: -w, y: h - y }),
      ...arc({ x: -w, y: y - h }, { x: x - w, y: -h }),
    ],
  };
}

/** How far a relief stands out over the wall that it cuts into. */
export function overcutOf(relief: Exclude<Relief, "none">, r: number): number {
  return relief === "diagonal" ? r * (1 - Math.SQRT1_2) : r;
}

/** The shortest width and height whose walls keep something straight between two reliefs. */
export function leastBox(
  relief: Exclude<Relief, "none">,
  r: number,
): { readonly x: number; readonly y: number } {
  const { x, y } = takenOf(relief, r);
  return { x: Math.max(2 * x + STRAIGHT_MM, 2 * r), y: Math.max(2 * y + STRAIGHT_MM, 2 * r) };
}

/** How much of each wall a relief takes. */
function takenOf(relief: Exclude<Relief, "none">, r: number): { readonly x: number; readonly y: number } {
  if (relief === "diagonal") return { x: Math.SQRT2 * r, y: Math.SQRT2 * r };
  return relief === "along-width" ? { x: 0, y: 2 * r } : { x: 2 * r, y: 0 };
}

/** Wall that must be left between two reliefs for a part to bear on, mm; common practice, no source. */
const STRAIGHT_MM = 1;
