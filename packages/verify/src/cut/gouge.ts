import { boundsOf, contains, type Point, place, type Region, type Segment, segments } from "@dryfit/geometry";
import { type Bench, reach } from "./bench.ts";
import type { Storey } from "./designed.ts";
import { gapBetween, nearestOn } from "./gap.ts";
import { boxAround, boxOfSegment, type Grid, gridOf, grown, touch } from "./grid.ts";
import { depthOf, pointOn, type Stroke } from "./stroke.ts";

/** Wood taken that should have stayed. */
export interface Gouge {
  /** How far the cutter went into kept wood, the shorter of sideways and downwards, mm. */
  readonly width: number;
  readonly at: Point<"sheet">;
  readonly stroke: Stroke<"panel">;
  /** Depth of the kept wood's face there, from face A, mm. */
  readonly depth: number;
}

/**
 * The widest gouge of each program into a part; [] where none takes any kept wood.
 *
 * Measured stroke by stroke, without polygons of removed material: a cutter of radius r takes kept wood
 * where its axis passes nearer than r, by the difference; and it does so in a storey where its tip goes
 * beyond the storey's face, by that much. Wood is taken only where both are more than nothing.
 */
export function gougesOf(bench: Bench, storeys: readonly Storey[], thickness: number): Gouge[] {
  const worst = new Map<string, Gouge>();
  const boundaries = new Map<readonly Region<"panel">[], Boundary>();
  for (const storey of storeys) {
    const boundary = boundaries.get(storey.kept) ?? boundaryOf(storey.kept);
    boundaries.set(storey.kept, boundary);
    for (const stroke of bench.strokes) {
      const { file, setup } = stroke.program;
      const down = downInto(storey, stroke, thickness);
      const before = worst.get(file)?.width ?? 0;
      if (down <= before) continue;
      const path = reach(stroke, { a: storey.from, b: storey.to }, thickness);
      if (path === null) continue;
      const side = sideInto(boundary, path, stroke.radius);
      const width = Math.min(down, side.width);
      if (width > before)
        worst.set(file, {
          width,
          at: place(bench.sheetFromPanel, side.at),
          stroke,
          depth: setup === "A" ? storey.from : storey.to,
        });
    }
  }
  return [...worst.values()];
}

export interface Boundary {
  readonly kept: readonly Region<"panel">[];
  readonly sides: Grid<Segment<"panel">>;
  readonly box: ReturnType<typeof boundsOf> | null;
}

/** About the length of a stroke: few sides share a cell, few cells are asked. mm. */
const CELL_MM = 10;

export function boundaryOf(kept: readonly Region<"panel">[]): Boundary {
  const loops = kept.flatMap(({ outer, holes }) => [outer, ...holes]);
  return {
    kept,
    sides: gridOf(
      loops.flatMap((loop) => segments(loop)),
      boxOfSegment,
      CELL_MM,
    ),
    box: loops.length === 0 ? null : boundsOf(loops),
  };
}

/** How far the tip goes beyond the face of the storey's kept wood, mm. */
function downInto(storey: Storey, { program, z }: Stroke<"panel">, thickness: number): number {
  const depth = depthOf(program, Math.min(...z), thickness);
  return program.setup === "A" ? depth - storey.from : storey.to - depth;
}

/** How far a cutter of this radius goes sideways into kept wood, mm, and where. */
export function sideInto(
  { kept, sides, box }: Boundary,
  path: Segment<"panel">,
  radius: number,
): { width: number; at: Point<"panel"> } {
  const around = grown(boxOfSegment(path), radius);
  if (box === null || !touch(around, box)) return { width: 0, at: path.from };
  let nearest = { distance: Number.POSITIVE_INFINITY, at: path.from };
  for (const side of sides.near(around)) {
    const gap = gapBetween(path, side);
    if (gap.distance < nearest.distance) nearest = gap;
    if (gap.distance === 0) break;
  }
  const isIn = (p: Point<"panel">) => kept.some((region) => contains(region, p) === "inside");
  if (nearest.distance > 0 && !isIn(path.from))
    return { width: Math.max(0, radius - nearest.distance), at: nearest.at };
  // The axis itself runs in kept wood: how deep, at its ends and between.
  const inside = SAMPLES.map((t) => pointOn(path, t)).filter(isIn);
  const depths = inside.map((at) => ({ width: radius + depthIn(sides, at, radius), at }));
  return depths.reduce((a, b) => (b.width > a.width ? b : a), { width: radius, at: nearest.at });
}

const SAMPLES = Array.from({ length: 17 }, (_, i) => i / 16);

/** How far a point is from the kept wood's edge, a cutter's radius at most. */
function depthIn(sides: Grid<Segment<"panel">>, at: Point<"panel">, most: number): number {
  const far = (s: Segment<"panel">) => {
    const p = nearestOn(s, at);
    return Math.hypot(p.x - at.x, p.y - at.y);
  };
  return Math.min(most, ...sides.near(boxAround(at, most)).map(far));
}
