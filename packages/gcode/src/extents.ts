import { arctangent } from "@dryfit/geometry";
import { endOfMotion, type Motion } from "./motion.ts";
import type { Extents } from "./program.ts";
import type { Position } from "./toolpath.ts";

/** The box that the feed moves fill, arcs by their true bulge; a box of nothing where none feeds. */
export function extentsOf(motions: readonly Motion[], start: Position): Extents {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  const meet = (x: number, y: number, z: number): void => {
    [x, y, z].forEach((value, k) => {
      low[k] = Math.min(low[k]!, value);
      high[k] = Math.max(high[k]!, value);
    });
  };
  let at = start;
  for (const motion of motions) {
    const to = endOfMotion(motion, at);
    if (motion.kind === "line" || motion.kind === "arc") {
      meet(at.x, at.y, at.z);
      meet(to.x, to.y, to.z);
    }
    if (motion.kind === "arc") for (const [x, y] of quarterPoints(at, motion)) meet(x, y, to.z);
    if (motion.kind === "drill") {
      meet(to.x, to.y, motion.retract);
      meet(to.x, to.y, motion.bottom);
    }
    at = to;
  }
  const range = (k: number): readonly [number, number] => [low[k]!, high[k]!];
  return { x: range(0), y: range(1), z: range(2) };
}

/** Where the arc runs farthest to a side: the quarter points of its circle that it passes. */
function quarterPoints(
  from: Position,
  { i, j, sweep }: Motion & { kind: "arc" },
): readonly (readonly [number, number])[] {
  const [cx, cy, radius] = [from.x + i, from.y + j, Math.hypot(i, j)];
  const begin = arctangent(-j, -i);
  const quarter = Math.PI / 2;
  const [low, high] = sweep > 0 ? [begin, begin + sweep] : [begin + sweep, begin];
  const first = Math.ceil(low / quarter);
  const count = Math.max(0, Math.floor(high / quarter) - first + 1);
  return Array.from({ length: count }, (_, k) => {
    const turn = (((first + k) % 4) + 4) % 4;
    const [cos, sin] = QUARTERS[turn]!;
    return [cx + radius * cos, cy + radius * sin];
  });
}

const QUARTERS: readonly (readonly [cos: number, sin: number])[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];
