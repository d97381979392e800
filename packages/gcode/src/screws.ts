import {
  type Box,
  boundsOf,
  contains,
  distance,
  distanceTo,
  type Loop,
  type Point,
  placeCurve,
  type Region,
} from "@dryfit/geometry";
import type { Finding, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import type { Cutter, CuttingData } from "./cutter.ts";
import { travelHeight } from "./keep-outs.ts";
import type { Machine } from "./machine.ts";
import type { Operation, SetupPlan } from "./toolpath.ts";

/** Room that a screw that holds the sheet down needs, mm. */
export interface ScrewRoom {
  /** Least way from a screw's middle to any part: the widest cutter and half a head. */
  readonly toParts: number;
  /** Least way to the sheet's edge and to what must be kept clear. */
  readonly toEdge: number;
  /** Screws stand about this far from one another. */
  readonly apart: number;
}

/** A 6 mm cutter, a head of 10 mm and 3 mm of air; screws every 250 mm. Common practice. */
export const SCREW_ROOM: ScrewRoom = { toParts: 14, toEdge: 12, apart: 250 };

/**
 * Places in waste for the screws that hold a sheet to the bed, where no cutter comes: sheet frame.
 *
 * Spread out one by one, each as far from the others as waste allows; the first nearest to the lower left corner.
 */
export function screwPlaces(
  sheet: Sheet,
  parts: readonly Part[],
  room: ScrewRoom = SCREW_ROOM,
): readonly Point<"sheet">[] {
  const free = freePlaces(sheet, keptFrom(sheet, parts, room), room);
  const first = free.reduce<Point<"sheet"> | null>(
    (best, p) => (best === null || p.x + p.y < best.x + best.y ? p : best),
    null,
  );
  if (first === null) return [];
  const chosen = [first];
  const gaps = free.map((p) => distance(p, first));
  for (;;) {
    const next = gaps.reduce((best, gap, k) => (gap > gaps[best]! ? k : best), 0);
    if (gaps[next]! < room.apart) return chosen;
    const place = free[next]!;
    chosen.push(place);
    free.forEach((p, k) => {
      gaps[k] = Math.min(gaps[k]!, distance(p, place));
    });
  }
}

/**
 * A setup that only marks the screws' places with a shallow hole, for a program to run before all others.
 * A sheet without waste wide enough is a finding.
 */
export function spottingPlan(
  sheet: Sheet,
  parts: readonly Part[],
  {
    cutter,
    data,
    machine,
    room = SCREW_ROOM,
  }: {
    readonly cutter: Cutter;
    readonly data: CuttingData;
    readonly machine: Machine;
    readonly room?: ScrewRoom;
  },
): { readonly plan: SetupPlan; readonly findings: readonly Finding[] } {
  const places = screwPlaces(sheet, parts, room);
  const operations = places.map((at, k): Operation => spot(at, k + 1, { cutter, data, machine, sheet }));
  return {
    plan: { sheet: sheet.id, setup: "A", operations },
    findings: places.length > 0 ? [] : [noRoom(sheet, room)],
  };
}

/** How deep a spot is: enough to find the place and start the screw, mm. */
export const SPOT_DEPTH = 2;

/** Height over the sheet from which a spot is drilled at feed, mm. */
const SPOT_CLEARANCE = 1;

/** How finely places are tried, mm. */
const TRIAL_MM = 10;

function spot(
  { x, y }: Point<"sheet">,
  number: number,
  {
    cutter,
    data,
    machine,
    sheet,
  }: {
    readonly cutter: Cutter;
    readonly data: CuttingData;
    readonly machine: Machine;
    readonly sheet: Sheet;
  },
): Operation {
  const safe = { x, y, z: travelHeight(machine, sheet) };
  return {
    id: `screw-${number}`,
    kind: "pin",
    part: "",
    feature: `place for screw ${number}`,
    cutter: cutter.id,
    moves: [
      { kind: "rapid", to: safe },
      {
        kind: "drill",
        at: { x, y, z: -SPOT_DEPTH },
        from: SPOT_CLEARANCE,
        peck: null,
        dwellSeconds: 0,
        feed: data.plungeMmPerMin,
      },
    ],
    tabs: [],
    corners: [],
  };
}

function freePlaces(sheet: Sheet, kept: readonly Kept[], room: ScrewRoom): readonly Point<"sheet">[] {
  const [width, height] = sheet.stock.size;
  const boxes = kept.map(({ outline }) => boundsOf(outline));
  const places: Point<"sheet">[] = [];
  for (let x = room.toEdge; x <= width - room.toEdge; x += TRIAL_MM) {
    for (let y = room.toEdge; y <= height - room.toEdge; y += TRIAL_MM) {
      const p = { x, y };
      const clear = kept.every(({ outline, air }, k) => far(p, boxes[k]!, air) || isOff(outline, p, air));
      if (clear && isOnStock(sheet, p, room.toEdge)) places.push(p);
    }
  }
  return places;
}

function isOff(shape: Loop<"sheet"> | Region<"sheet">, p: Point<"sheet">, air: number): boolean {
  const loops = "outer" in shape ? [shape.outer, ...shape.holes] : [shape];
  return contains(shape, p) === "outside" && loops.every((loop) => distanceTo(loop, p) >= air);
}

function isOnStock({ stock }: Sheet, p: Point<"sheet">, air: number): boolean {
  const { outline, keepOuts } = stock;
  const inside =
    outline === null ||
    (contains(outline, p) === "inside" &&
      [outline.outer, ...outline.holes].every((loop) => distanceTo(loop, p) >= air));
  return inside && keepOuts.every((area) => isOff(area, p, air));
}

function far(p: Point, { min, max }: Box, air: number): boolean {
  return p.x < min.x - air || p.x > max.x + air || p.y < min.y - air || p.y > max.y + air;
}

/** An outline and the least way from it to a screw's middle. */
interface Kept {
  readonly outline: Loop<"sheet">;
  readonly air: number;
}

function keptFrom(sheet: Sheet, parts: readonly Part[], { toParts }: ScrewRoom): readonly Kept[] {
  return sheet.parts.flatMap(({ part, placement }) => {
    const found = parts.find(({ id }) => id === part);
    if (found === undefined) return [];
    const shaped = found.roundOvers.some(({ by }) => by === "cutter");
    return [{ outline: placeCurve(placement, found.outline), air: toParts + (shaped ? SHAPED_MM : 0) }];
  });
}

/** How much farther out a cutter that makes edges reaches than one that goes round a part, mm. From memory. */
const SHAPED_MM = 8;

function noRoom(sheet: Sheet, { toParts, toEdge }: ScrewRoom): Finding {
  return {
    code: "no_room_for_screws",
    severity: "warning",
    path: sheet.id,
    message: `${sheet.id}: no waste lies ${toParts} mm from every part and ${toEdge} mm from the edge, so no screw can hold it.`,
    numbers: { toParts, toEdge },
    wayOut: "Hold the sheet with clamps or tape, or take a larger one.",
  };
}
