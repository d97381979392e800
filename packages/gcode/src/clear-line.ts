import {
  along,
  differenceFlat,
  distanceTo,
  intersectionFlat,
  loopOf,
  nearest,
  offsetFlat,
  type Point,
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

/** How finely a track is looked at, mm: where it changes, and by how many of these steps elsewhere. */
const CHIP_MM = 1;
const STEPS = 4;

/** The one stretch of a ring that runs along a wall of the pocket; null where there are several, or it is all wall. */
function wallStretch(
  ring: Track,
  pocket: readonly Region[],
  asked: readonly Region[],
): { readonly from: number; readonly to: number } | null {
  const edges = loopsOf(pocket);
  const walls = loopsOf(asked);
  const chips = chipsOf(ring);
  const known = new Map<number, boolean>();
  const isWall = (i: number): boolean => {
    const before = known.get(i);
    if (before !== undefined) return before;
    const { at } = chips[i]!;
    const foot = edges
      .map((edge) => nearest(edge, at))
      .reduce((best, one) => (one.distance < best.distance ? one : best));
    const is = walls.some((wall) => distanceTo(wall, foot.point) <= SLOT_MM);
    known.set(i, is);
    return is;
  };
  const turns: number[] = [];
  for (let i = 0; i < chips.length; i += STEPS) {
    const next = Math.min(i + STEPS, chips.length);
    if (isWall(i) === isWall(next % chips.length)) continue;
    for (let k = i + 1; k <= next; k++)
      if (isWall(k % chips.length) !== isWall(k - 1)) turns.push(k % chips.length);
  }
  if (turns.length !== 2) return null;
  const [start, end] = (isWall(turns[0]!) ? turns : [turns[1]!, turns[0]!]).map((i) => chips[i!]!);
  return { from: start!.from, to: end!.from < start!.from ? end!.from + trackLength(ring) : end!.from };
}

/** Short pieces of a track: their middles, and the ways to their beginnings. */
function chipsOf(track: Track): readonly { readonly at: Point; readonly from: number }[] {
  let before = 0;
  return track.flatMap((segment) => {
    const [own, start] = [segmentLength(segment), before];
    before += own;
    const count = Math.ceil(own / CHIP_MM);
    return Array.from({ length: count }, (_, i) => ({
      at: along(segment, (i + 0.5) / count),
      from: start + (own * i) / count,
    }));
  });
}

const loopsOf = (regions: readonly Region[]) => regions.flatMap(({ outer, holes }) => [outer, ...holes]);
