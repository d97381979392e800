import {
  along,
  contains,
  differenceFlat,
  meetings,
  nearest,
  offset,
  offsetFlat,
  pathOf,
  type Region,
  segmentLength,
  segments,
  sweepFlat,
} from "@dryfit/geometry";
import { type Ring, ringOf, tracksOf } from "./clear.ts";
import { SLOT_MM, slotLines } from "./clear-slot.ts";
import type { Direction } from "./plan-options.ts";
import { pointAlong, stretch, type Track, trackLength } from "./plan-track.ts";

/** What a larger cutter roughs of a pocket, and what is left for a smaller one. */
export interface RestClearing {
  /** The pocket but for `allowance` along its walls: the larger cutter's. */
  readonly roughed: readonly Region[];
  readonly allowance: number;
  /** Where the smaller cutter clears corners and necks, each from a place that is clear to another. */
  readonly tracks: readonly Track[];
  /** The walls' last pass, all of it the smaller cutter's. */
  readonly walls: readonly Track[];
}

export interface RestCut {
  /** Of the smaller cutter and of the larger one, mm. */
  readonly radius: number;
  readonly rough: number;
  readonly allowance: number;
  readonly stepover: number;
  readonly direction: Direction;
}

/**
 * How a pocket that a cutter of `radius` can clear is shared with a larger one: rings as the smaller cutter would run
 * alone, but only where its swath meets what the larger one leaves. Null where the larger one gets in nowhere, or
 * where some wood could not be entered from a place that is clear.
 */
export function restClearing(
  pocket: readonly Region[],
  { radius, rough, allowance, stepover, direction }: RestCut,
): RestClearing | null {
  const roughed = offset([...pocket], -allowance);
  const [walls, own, wide] = [roomsIn(pocket, radius), roomsIn(roughed, radius), roomsIn(roughed, rough)];
  if (wide.length === 0 || own.length !== walls.length || slotLines(pocket, radius).length > 0) return null;
  const clear = offset(wide, rough);
  const free = offset(clear, -radius);
  const rings = own.flatMap((room) => ringTracks(ringOf(room, radius, stepover, direction)));
  const found = rings.map((ring) => outside(ring, free));
  if (found.some((tracks) => tracks === null)) return null;
  const tracks = found.flatMap((list) => list ?? []);
  const finishing = walls.flatMap((wall) => tracksOf(wall, direction));
  const swept = [...clear, ...sweepFlat(tracks.map(pathOf), radius)];
  const isLeft = (reach: readonly Region[], gone: readonly Region[]): boolean =>
    offsetFlat(differenceFlat(offsetFlat([...reach], radius), gone), -SLOT_MM).length > 0;
  if (isLeft(own, swept) || isLeft(walls, [...swept, ...sweepFlat(finishing.map(pathOf), radius)]))
    return null;
  return { roughed, allowance, tracks, walls: finishing };
}

/** Where a cutter's axis may be, but for slots as wide as the cutter. */
export function roomsIn(pocket: readonly Region[], radius: number): Region[] {
  return offset([...pocket], -radius).filter((room) => offset([room], -SLOT_MM).length > 0);
}

/** From the middle outwards. */
function ringTracks({ children, tracks }: Ring): readonly Track[] {
  return [...children.flatMap(ringTracks), ...tracks];
}

/** A stretch of a track, by the ways along it. */
interface Span {
  readonly from: number;
  readonly to: number;
}

/** The stretches of a closed track that lie outside regions, each begun and ended a little within; null: it never is. */
function outside(track: Track, regions: readonly Region[]): Track[] | null {
  const edges = regions.flatMap(({ outer, holes }) => [outer, ...holes].flatMap((loop) => segments(loop)));
  const round = trackLength(track);
  const ways: number[] = [];
  let before = 0;
  for (const piece of track) {
    const path = pathOf([piece]);
    for (const edge of edges) for (const at of meetings(piece, edge)) ways.push(before + nearest(path, at).s);
    before += segmentLength(piece);
  }
  const isFree = (way: number): boolean => {
    const at = pointAlong(track, way - Math.floor(way / round) * round);
    return regions.some((region) => contains(region, at) !== "outside");
  };
  const cuts = [...new Set(ways)].sort((a, b) => a - b);
  if (cuts.length === 0) return track.every((piece) => isFreeAt(piece, regions)) ? [] : null;
  const spans: Span[] = [];
  cuts.forEach((from, i) => {
    const to = i + 1 < cuts.length ? cuts[i + 1]! : cuts[0]! + round;
    if (to - from < SAME_WAY_MM || isFree((from + to) / 2)) return;
    const last = spans.at(-1);
    if (last !== undefined && from - last.to < 3 * WITHIN_MM)
      spans[spans.length - 1] = { from: last.from, to };
    else spans.push({ from, to });
  });
  const [first, last] = [spans[0], spans.at(-1)];
  if (
    first !== undefined &&
    last !== undefined &&
    spans.length > 1 &&
    first.from + round - last.to < 3 * WITHIN_MM
  )
    spans.splice(0, spans.length, ...spans.slice(1, -1), { from: last.from, to: first.to + round });
  const wider = spans.map(({ from, to }) => ({ from: from - WITHIN_MM, to: to + WITHIN_MM }));
  if (wider.some(({ from, to }) => to - from > round || !isFree(from) || !isFree(to))) return null;
  return wider.map(({ from, to }) => stretch(track, from, to));
}

function isFreeAt(piece: Track[number], regions: readonly Region[]): boolean {
  const at = along(piece, 0.5);
  return regions.some((region) => contains(region, at) !== "outside");
}

/** How far within what is clear a stretch begins, mm; and ways that are one. */
const WITHIN_MM = 0.3;
const SAME_WAY_MM = 1e-4;
