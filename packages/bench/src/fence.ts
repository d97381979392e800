import { boundsOf } from "@dryfit/geometry";
import { fenceOffset } from "./guide.ts";
import type { Slot } from "./slots.ts";
import type { HandCutter, HandTools } from "./tools.ts";

/** Where a straightedge is clamped for one slot; all places in mm from an edge of the part's blank, seen from face A. */
export interface FenceSetting {
  /** The edge from which `fence` and `walls` are measured, and the one for stops. */
  readonly edge: "bottom" | "left";
  readonly walls: readonly [number, number];
  /** The straightedge's face, towards the router. */
  readonly fence: number;
  /** Which wall the router cuts with its base on the straightedge. */
  readonly side: "near the edge" | "far from the edge";
  /** Thickness of the strips laid between base and fence, one pass each, the last with none: 0. */
  readonly spacers: readonly number[];
  readonly stopEdge: "left" | "bottom";
  /** Where the cut ends, and the block that stops the base there; null where it runs out over the edge. */
  readonly stops: readonly ({ readonly cut: number; readonly block: number } | null)[];
  /** How far the straightedge lies beyond the blank; 0 where it lies on it. */
  readonly beyond: number;
}

/** A straightedge lies well on a part if so much of it does, mm: common practice, no source. */
const SEAT_MM = 30;

/**
 * The fence for a slot: it stands the base's edge less the cutter's radius from the wall, on the side where there
 * is wood to clamp it to. A wider slot takes further passes with strips of known thickness against it.
 */
export function fenceSetting(slot: Slot, cutter: HandCutter, baseEdge: number): FenceSetting {
  const from = fenceOffset(baseEdge, cutter.diameter);
  const across = slot.run === "x" ? "y" : "x";
  const size = boundsOf(slot.part.outline).max[across];
  const places = [
    { side: "near the edge", fence: slot.walls[0] - from, room: slot.walls[0] - from },
    { side: "far from the edge", fence: slot.walls[1] + from, room: size - slot.walls[1] - from },
  ] as const;
  const chosen = places[0].room >= Math.min(SEAT_MM, places[1].room) ? places[0] : places[1];
  const { side, fence, room } = chosen;
  return {
    edge: slot.run === "x" ? "bottom" : "left",
    walls: slot.walls,
    fence,
    side,
    spacers: spacersFor(slot.walls[1] - slot.walls[0], cutter.diameter),
    stopEdge: slot.run === "x" ? "left" : "bottom",
    stops: slot.ends.map((cut, i) =>
      slot.open[i] ? null : { cut, block: i === 0 ? cut - from : cut + from },
    ),
    beyond: Math.max(0, -room),
  };
}

/**
 * Strips for a slot wider than its cutter, thickest first, so that every pass but the first cuts the wall on the
 * fence's side, against the cutter's turn. Errors: RangeError where the cutter is wider than the slot.
 */
export function spacersFor(width: number, cutter: number): readonly number[] {
  const over = width - cutter;
  if (over < -WIDTH_MM) throw new RangeError(`a cutter of ${cutter} in a slot of ${width}`);
  if (over <= WIDTH_MM) return [0];
  // Each pass overlaps the one before, so that no ridge stays between them.
  const passes = 1 + Math.ceil(over / (cutter * OVERLAPPED));
  return Array.from({ length: passes }, (_, i) => (over * (passes - 1 - i)) / (passes - 1));
}

/** Less is no difference to a fence, mm. */
const WIDTH_MM = 0.02;

/** Share of the cutter's width by which passes may follow each other. */
const OVERLAPPED = 0.9;

/** The base edge that brings the fence nearest: a short way to the wall keeps the router steady. */
export function nearestBaseEdge({ baseEdges }: HandTools): HandTools["baseEdges"][number] {
  return [...baseEdges].sort((a, b) => a.toMiddle - b.toMiddle)[0]!;
}
