import {
  along,
  differenceFlat,
  distanceTo,
  intersectionFlat,
  loopOf,
  nearest,
  offsetFlat,
  pathOf,
  type Region,
  segmentLength,
  sweepFlat,
} from "@dryfit/geometry";
import { SLOT_MM } from "./clear-slot.ts";
import { stretch, type Track, trackLength } from "./plan-track.ts";

/**
 * The one line along the wall that takes all that is asked for of a narrow open pocket; null where it does not.
 *
 * `ring` goes round where the cutter's axis may be. In a rebate no wider than the cutter, its far side only runs
 * in the room beside the part: to go there and back would take twice the time.
 */
export function wallLine(
  ring: Track,
  pocket: readonly Region[],
  asked: readonly Region[],
  radius: number,
): Track | null {
  const within = [{ outer: loopOf(ring), holes: [] }];
  const wall = wallStretch(ring, pocket, asked);
  if (wall === null) return null;
  const wanted = intersectionFlat([...asked], offsetFlat(within, radius));
  for (const more of [0, radius / 2, radius]) {
    const [from, to] = [wall.from - more, wall.to + more];
    if (to - from > trackLength(ring) - radius) return null;
    const line = stretch(ring, from, to);
    const left = differenceFlat(wanted, sweepFlat([pathOf(line)], radius));
    if (offsetFlat(left, -SLOT_MM).length === 0) return line;
  }
  return null;
}

/** How finely a track is looked at, mm. */
const CHIP_MM = 1;

/** The one stretch of a ring that runs along a wall of the pocket; null where there are several, or it is all wall. */
function wallStretch(
  ring: Track,
  pocket: readonly Region[],
  asked: readonly Region[],
): { readonly from: number; readonly to: number } | null {
  const edges = loopsOf(pocket);
  const walls = loopsOf(asked);
  const chips: { readonly isWall: boolean; readonly from: number; readonly to: number }[] = [];
  let before = 0;
  for (const segment of ring) {
    const own = segmentLength(segment);
    const count = Math.ceil(own / CHIP_MM);
    for (let i = 0; i < count; i++) {
      const p = along(segment, (i + 0.5) / count);
      const foot = edges
        .map((edge) => nearest(edge, p))
        .reduce((best, one) => (one.distance < best.distance ? one : best));
      const isWall = walls.some((wall) => distanceTo(wall, foot.point) <= SLOT_MM);
      chips.push({ isWall, from: before + (own * i) / count, to: before + (own * (i + 1)) / count });
    }
    before += own;
  }
  const turns = chips.filter(({ isWall }, i) => isWall !== chips.at(i - 1)!.isWall);
  if (turns.length !== 2) return null;
  const [start, end] = turns[0]!.isWall ? [turns[0]!, turns[1]!] : [turns[1]!, turns[0]!];
  return { from: start.from, to: end.from < start.from ? end.from + before : end.from };
}

const loopsOf = (regions: readonly Region[]) => regions.flatMap(({ outer, holes }) => [outer, ...holes]);
