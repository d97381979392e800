import { contains, offset, onceWith, type Point, type Region, segments } from "@dryfit/geometry";
import type { EngagedClearing } from "./clear-engage.ts";
import { wallLine } from "./clear-line.ts";
import { SLOT_MM, slotLines } from "./clear-slot.ts";
import type { Direction, PlanOptions } from "./plan-options.ts";
import { crosses, type Track, turnedRound } from "./plan-track.ts";

/**
 * How a round cutter clears a pocket: a tree of rings. A root's tracks run along the walls at exactly the
 * cutter's radius; each child's run one stepover further in. Children are cut first: wood falls away evenly
 * from the middle, and the wall is cut last, in one piece.
 */
export interface Ring {
  /** Where the cutter's axis may be at this ring; the tracks are its boundary. */
  readonly within: Region;
  /** Outer boundary counter-clockwise, islands clockwise, so that wood is on the right: climb. Else the reverse. */
  readonly tracks: readonly Track[];
  readonly children: readonly Ring[];
  /** To and fro across, before the tracks: raster clearing. */
  readonly hatch?: readonly Track[];
}

/** A pocket as the cutter will clear it. */
export interface Clearing {
  /** Pieces that are wider than the cutter. */
  readonly rings: readonly Ring[];
  /** Pieces that are cleared without ever taking more of the rim than asked. */
  readonly engaged: readonly EngagedClearing[];
  /** Along one wall, the last pass the way they run; they take all that is asked for in bands open to one side. */
  readonly lines: readonly Track[];
  /** Centre lines of slots exactly as wide as the cutter. */
  readonly slots: readonly Track[];
  /** The walls' own tracks, where the rings have left `allowance` on them. */
  readonly walls: readonly Track[];
  readonly allowance: number;
}

/**
 * Contour-parallel clearing of `pocket` with a cutter of this radius.
 *
 * Every track comes from the pocket's own contour, none from a neighbouring track, so nothing drifts and arcs
 * stay arcs. Each point of the pocket that the cutter can reach lies less than `radius` from a track: no ridge
 * is left, whatever the shape, because the stepover is held to the radius. `asked` is what must go of the pocket,
 * where the rest is only room to run out.
 */
export function clearing(
  pocket: readonly Region[],
  radius: number,
  stepover: number,
  options: Pick<PlanOptions, "direction" | "finish"> = { direction: "climb", finish: null },
  asked: readonly Region[] = pocket,
): Clearing {
  const { rooms, way, finishing } = roomsOf(pocket, radius, options);
  const rings = rooms.map((room) => ringOf(room, radius, stepover, "climb"));
  const lines = rings.map((one) =>
    finishing.allowance > 0 ? null : lineInstead(one, pocket, asked, radius),
  );
  return {
    rings: rings.filter((_, i) => lines[i] === null).map((one) => turned(one, way)),
    engaged: [],
    lines: lines.flatMap((one) =>
      one === null ? [] : [options.direction === "climb" ? one : turnedRound(one)],
    ),
    slots: slotLines(pocket, radius),
    ...finishing,
  };
}

/** Rings from a room's walls inwards. */
export function ringOf(room: Region, radius: number, stepover: number, way: Direction): Ring {
  return turned(ring(room, room, 0, Math.min(stepover, radius - OVERLAP_MM), radius), way);
}

/** Where the cutter's axis may be in the pieces of a pocket that are wider than the cutter, and what finishes them. */
export interface Rooms {
  readonly rooms: readonly Region[];
  /** The way round that they are cut. */
  readonly way: Direction;
  readonly finishing: Pick<Clearing, "walls" | "allowance">;
}

/** Asked for each way to clear a pocket. */
export const roomsOf: (
  pocket: readonly Region[],
  radius: number,
  options: Pick<PlanOptions, "direction" | "finish">,
) => Rooms = onceWith((pocket, radius, { direction, finish }) => {
  // A piece that closes up within SLOT_MM is a slot for one line, not for a there and back.
  const open = (by: number): Region[] =>
    offset([...pocket], -by).filter((wall) => offset([wall], -SLOT_MM).length > 0);
  const walls = open(radius);
  const roughed = finish === null ? [] : open(radius + finish.allowance);
  // Where the allowance would close a neck, roughing goes to the wall itself.
  if (finish === null || walls.length === 0 || roughed.length !== walls.length)
    return { rooms: walls, way: direction, finishing: { walls: [], allowance: 0 } };
  return {
    rooms: roughed,
    way: finish.roughing,
    finishing: { walls: walls.flatMap((wall) => tracksOf(wall, direction)), allowance: finish.allowance },
  };
});

/** Round a region's boundaries, wood on the right for climb. */
export function tracksOf({ outer, holes }: Region, direction: Direction): readonly Track[] {
  const tracks = [outer, ...holes].map((loop) => segments(loop));
  return direction === "climb" ? tracks : tracks.map(turnedRound);
}

/** True where the straight way from a to b stays where the cutter's axis may be. */
export function straightWithin(region: Region, a: Point, b: Point): boolean {
  const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  if (contains(region, middle) === "outside") return false;
  return ![region.outer, ...region.holes].some((loop) => segments(loop).some((s) => crosses(s, a, b)));
}

function turned(one: Ring, direction: Direction): Ring {
  if (direction === "climb") return one;
  return {
    ...one,
    tracks: one.tracks.map(turnedRound),
    children: one.children.map((c) => turned(c, direction)),
  };
}

/** How much neighbouring swaths overlap at least, mm: more than all tolerances of the tracks together. */
export const OVERLAP_MM = 0.02;

function ring(within: Region, wall: Region, depth: number, step: number, radius: number): Ring {
  const tracks = tracksOf(within, "climb");
  // What this ring's own swath reaches needs no ring inside it.
  if (offset([within], -(radius - OVERLAP_MM)).length === 0) return { within, tracks, children: [] };
  const inner = offset([wall], -(depth + step)).filter(
    (r) => contains(within, r.outer.vertices[0]!) === "inside",
  );
  return { within, tracks, children: inner.map((r) => ring(r, wall, depth + step, step, radius)) };
}

function lineInstead(
  { tracks, children }: Ring,
  pocket: readonly Region[],
  asked: readonly Region[],
  radius: number,
): Track | null {
  const [only, ...others] = tracks;
  if (only === undefined || others.length > 0 || children.length > 0 || asked === pocket) return null;
  return wallLine(only, pocket, asked, radius);
}
