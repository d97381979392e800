import {
  along,
  CUT_MM,
  contains,
  distance,
  distanceTo,
  inverse,
  meetings,
  offset,
  type Placement,
  type Point,
  place,
  placeRegion,
  point,
  type Region,
  SAME_POINT_MM,
  type Segment,
  segments,
} from "@dryfit/geometry";
import type { Finding } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { arcRadius } from "./arc.ts";
import type { Cutter } from "./cutter.ts";
import type { Machine } from "./machine.ts";
import { mm } from "./sum.ts";
import type { Operation, Position } from "./toolpath.ts";

/** Places of a sheet where something stands in the cutter's way, as one setup sees them. */
export interface KeepOuts {
  /** How high what stands there is over the face, mm. */
  readonly height: number;
  /** Height of rapids beside them, and of those that may cross them. */
  readonly safe: number;
  readonly high: number;
  /** Where something that needs `reach` all round enters a zone on its way. */
  readonly entries: (way: Segment, reach: number) => readonly Entry[];
  readonly sheetFromSetup: Placement<"sheet", "setup">;
}

/** Null where nothing stands on the sheet. */
export function keepOutsOf(
  sheet: Sheet,
  setupFromSheet: Placement<"setup", "sheet">,
  machine: Machine,
): KeepOuts | null {
  const zones: readonly Region[] = sheet.stock.keepOuts.map((zone) => placeRegion(setupFromSheet, zone));
  if (zones.length === 0) return null;
  return {
    height: machine.keepOutHeight,
    safe: machine.safeHeight,
    high: travelHeight(machine, sheet),
    entries: entriesInto(zones),
    sheetFromSetup: inverse(setupFromSheet),
  };
}

/**
 * The height at which a program travels between its cuts: over everything that stands on the sheet, where
 * anything does. So a program may be started, and taken up again, from anywhere.
 */
export function travelHeight(
  { safeHeight, keepOutHeight }: Pick<Machine, "safeHeight" | "keepOutHeight">,
  { stock }: Sheet,
): number {
  return stock.keepOuts.length === 0 ? safeHeight : keepOutHeight + safeHeight;
}

/** The operation with its way there and back, and every rapid that crosses a keep-out, at the height that is free. */
export function overKeepOuts(
  operation: Operation,
  cutters: readonly Cutter[],
  keepOuts: KeepOuts | null,
): Operation {
  if (keepOuts === null) return operation;
  const { safe, high } = keepOuts;
  const cutter = cutterOf(operation, cutters);
  const moves: Operation["moves"][number][] = [];
  const rapid = ({ x, y }: Point, z: number): void => {
    moves.push({ kind: "rapid", to: { x, y, z } });
  };
  let at: Position | null = null;
  for (const move of operation.moves) {
    if (move.kind !== "comment") {
      const to: Position = move.kind === "drill" ? { ...move.at, z: at?.z ?? safe } : move.to;
      if (at === null) rapid(to, high);
      else if (move.kind === "rapid" && crossed(at, to, cutter, keepOuts)) {
        rapid(at, high);
        rapid(to, high);
      }
      at = to;
    }
    moves.push(move);
  }
  if (at !== null) rapid(at, high);
  return { ...operation, moves };
}

/** Cuts that would run into what stands on the sheet: one finding for each operation, at its worst place. */
export function checkKeepOuts(
  operations: readonly Operation[],
  cutters: readonly Cutter[],
  keepOuts: KeepOuts | null,
): readonly Finding[] {
  if (keepOuts === null) return [];
  return operations.flatMap((operation) => {
    const cutter = cutterOf(operation, cutters);
    const entries = feedsOf(operation).flatMap(({ way, z }) =>
      keepOuts.entries(way, reachAt(z, cutter, keepOuts)),
    );
    if (entries.length === 0) return [];
    return [
      cutInKeepOut(
        operation,
        entries.reduce((a, b) => (b.by > a.by ? b : a)),
        cutter,
        keepOuts,
      ),
    ];
  });
}

function cutterOf(operation: Operation, cutters: readonly Cutter[]): Cutter {
  const found = cutters.find(({ id }) => id === operation.cutter);
  if (found === undefined)
    throw new RangeError(`${operation.id} wants cutter ${operation.cutter}, which is not at hand`);
  return found;
}

function crossed(from: Position, to: Position, cutter: Cutter, keepOuts: KeepOuts): boolean {
  const reach = reachAt(Math.min(from.z, to.z), cutter, keepOuts);
  return keepOuts.entries({ kind: "line", from, to }, reach).length > 0;
}

interface Entry {
  readonly zone: number;
  /** How far it comes into the zone, mm, and the room that it needs all round. */
  readonly by: number;
  readonly reach: number;
  readonly at: Point;
}

function entriesInto(zones: readonly Region[]): KeepOuts["entries"] {
  const known = new Map<number, Region[][]>();
  const grownBy = (reach: number): Region[][] => {
    const found = known.get(reach) ?? zones.map((zone) => offset([zone], Math.max(0, reach - CUT_MM)));
    known.set(reach, found);
    return found;
  };
  return (way, reach) =>
    reach === 0
      ? []
      : grownBy(reach).flatMap((grown, zone): Entry[] => {
          if (!grown.some((region) => touches(region, way))) return [];
          const { outer } = zones[zone]!;
          const depth = (p: Point): number =>
            reach + (contains(outer, p) === "inside" ? distanceTo(outer, p) : -distanceTo(outer, p));
          const places = isPoint(way) ? [way.from] : LOOKS.map((share) => along(way, share));
          const at = places.reduce((a, b) => (depth(b) > depth(a) ? b : a));
          return [{ zone, reach, by: Math.max(depth(at), 0), at }];
        });
}

function touches(zone: Region, way: Segment): boolean {
  if (contains(zone, way.from) === "inside") return true;
  return !isPoint(way) && segments(zone.outer).some((side) => meetings(side, way).length > 0);
}

function isPoint(way: Segment): boolean {
  return way.kind === "line" && distance(way.from, way.to) <= SAME_POINT_MM;
}

/** A way is looked at in so many places to say how far it comes in. */
const LOOKS = Array.from({ length: 33 }, (_, i) => i / 32);

/** The room that a cutter needs with its tip at `z`: its own or its shank's, and the collet nut's where that is as low. */
function reachAt(z: number, { diameter, shankDiameter, holder }: Cutter, { height }: KeepOuts): number {
  if (z >= height) return 0;
  const nut = holder !== null && z + holder.stickOut < height ? holder.diameter : 0;
  return Math.max(diameter, shankDiameter, nut) / 2;
}

interface FeedWay {
  readonly way: Segment;
  readonly z: number;
}

function feedsOf({ moves }: Operation): FeedWay[] {
  const ways: FeedWay[] = [];
  let at: Position = { x: 0, y: 0, z: 0 };
  for (const move of moves) {
    if (move.kind === "comment") continue;
    const to = move.kind === "drill" ? move.at : move.to;
    const z = Math.min(at.z, to.z);
    if (move.kind === "line") ways.push({ way: { kind: "line", from: at, to }, z });
    if (move.kind === "drill") ways.push({ way: { kind: "line", from: to, to }, z: to.z });
    if (move.kind === "arc")
      ways.push({
        way: {
          kind: "arc",
          from: at,
          to,
          centre: move.centre,
          radius: arcRadius({ ...move, from: at }),
          sweep: move.sweep,
        },
        z,
      });
    at = to;
  }
  return ways;
}

function cutInKeepOut(
  { id }: Operation,
  { zone, by, reach, at }: Entry,
  cutter: Cutter,
  { height, sheetFromSetup }: KeepOuts,
): Finding {
  const { x, y } = place(sheetFromSetup, point<"setup">(at.x, at.y));
  const isNut = reach > Math.max(cutter.diameter, cutter.shankDiameter) / 2;
  return {
    code: "cut_in_keep_out",
    severity: "error",
    path: id,
    message: `${id}: ${isNut ? "the collet nut" : "the cutter"} comes ${mm(by)} into keep-out ${zone + 1} at (${x.toFixed(1)}, ${y.toFixed(1)}) of the sheet.`,
    numbers: { by, x, y, keepOut: zone + 1, height },
    wayOut: isNut
      ? `Let ${cutter.id} stand farther out of the collet, take lower clamps (keepOutHeight), or move what stands there.`
      : "Move what stands there (sheet.sizes[].avoid, clamps in the machine file), or keep parts farther apart with sheet.web.",
  };
}
