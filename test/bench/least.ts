import {
  type Cutter,
  type CuttingData,
  cuttingData,
  type Machine,
  type Move,
  minutesOf,
  PLAN_OPTIONS,
} from "@dryfit/gcode";
import {
  distanceTo,
  type Loop,
  lengthOf,
  offset,
  type Point,
  type Segment,
  segments,
} from "@dryfit/geometry";
import type { Feature, Part } from "@dryfit/joinery";
import { type Needed, neededAlong, neededIn } from "./least-shape.ts";

/** The least that one cut can take. */
export interface Least {
  readonly id: string;
  readonly seconds: number;
  /** Geometric elements × passes. */
  readonly elements: number;
}

export interface LeastShop {
  readonly machine: Machine;
  /** Those that fit between the parts, and the drills. */
  readonly cutters: readonly Cutter[];
  /** Height of what is left under an outline that is held by a skin; null: cut through. */
  readonly skinOf: (part: string) => number | null;
}

/**
 * A lower bound for the time of everything that is cut of a part, cut by cut, with acceleration; from the part's
 * geometry and the shop's allowed feed, depth and stepover alone. Of all cutters in the drawer the quickest counts.
 *
 *   passes n   = ⌈depth ÷ depth per pass⌉: each visit of a place takes at most one pass there
 *   feed       = n × (walls' tracks + way inside), at the quicker of slot and clearing feed; walls with the machine's
 *                acceleration and corners, the way inside as if it were straight
 *   entry      = down and up at rapid; the whole depth ÷ tan(ramp) at the ramp feed instead of the feed; and the last
 *                pass's ramp once more, since a ramp's own floor must be cut level
 *   drilled    = depth ÷ plunge feed; before each further peck up and down again at rapid
 *   wound hole = depth ÷ tan(ramp) at the ramp feed, and once round level
 *
 * An opening whose slug would be thrown is cleared like a recess; a larger one is gone round once a pass.
 */
export function leastOf(part: Part, shop: LeastShop): Least[] {
  const skin = shop.skinOf(part.id);
  const depth = skin === null ? through(part, shop) : part.thickness.max - skin;
  const outline = quickest(shop, depth, (cutter) => neededAlong(part.outline, cutter.diameter / 2));
  return [
    ...part.features.map((feature) => ({
      id: `${part.id}/${feature.id}`,
      ...leastFeature(part, feature, shop),
    })),
    { id: `${part.id}/outline`, ...outline },
  ];
}

/** A straight way at rapid, from rest to rest, s. */
function rapidSeconds(length: number, machine: Machine): number {
  const z = machine.safeHeight;
  return 60 * minutesOf([{ kind: "rapid", to: { x: length, y: 0, z } }], machine, { x: 0, y: 0, z });
}

/**
 * Seconds of the least rapids that join all these places, cuts' outlines or holes' middles: a tree over their
 * distances, each less the cutter's width. Every way through all of them is at least as long.
 */
export function leastTravel(places: readonly (Loop | Point)[], width: number, machine: Machine): number {
  return leastLegs(places, width).reduce((sum, leg) => sum + rapidSeconds(leg, machine), 0);
}

/** A pin's hole, made by whatever is as wide. */
export function leastPin(part: Part, diameter: number, shop: LeastShop): Least {
  return { id: "pin", ...leastHole(diameter, through(part, shop), shop) };
}

/**
 * The least way that joins all these shapes: a tree over their distances, less a cutter's width each, mm of each leg.
 * Every round through all of them is at least as long.
 */
function leastLegs(shapes: readonly (Loop | Point)[], width: number): number[] {
  const away = (a: Loop | Point, b: Loop | Point): number => Math.max(0, gap(a, b) - width);
  const left = shapes.slice(1).map((shape) => ({ shape, way: away(shapes[0]!, shape) }));
  const legs: number[] = [];
  while (left.length > 0) {
    const next = left.reduce((best, one) => (one.way < best.way ? one : best));
    left.splice(left.indexOf(next), 1);
    legs.push(next.way);
    for (const one of left) one.way = Math.min(one.way, away(next.shape, one.shape));
  }
  return legs;
}

function gap(a: Loop | Point, b: Loop | Point): number {
  const corners = (shape: Loop | Point): readonly Point[] => ("vertices" in shape ? shape.vertices : [shape]);
  const to = (shape: Loop | Point, p: Point): number =>
    "vertices" in shape ? distanceTo(shape, p) : Math.hypot(shape.x - p.x, shape.y - p.y);
  return Math.min(...corners(a).map((p) => to(b, p)), ...corners(b).map((p) => to(a, p)));
}

function leastFeature(part: Part, feature: Feature, shop: LeastShop): Omit<Least, "id"> {
  const over = part.thickness.max - part.thickness.mean;
  const all = through(part, shop);
  if (feature.kind === "bore")
    return leastHole(feature.diameter, feature.depth === null ? all : feature.depth + over, shop);
  if (feature.kind === "opening")
    return quickest(shop, all, (cutter, stepover) => {
      const piece = { outer: feature.loop, holes: [] };
      const isSlug = offset([piece], -(1 + THROWN) * cutter.diameter).length > 0;
      return isSlug
        ? neededAlong(feature.loop, -cutter.diameter / 2)
        : neededIn(piece, part.outline, cutter.diameter / 2, stepover);
    });
  return quickest(shop, feature.depth + over, (cutter, stepover) =>
    neededIn(feature.region, part.outline, cutter.diameter / 2, stepover),
  );
}

/** A slug is thrown that is no more than twice this many cutter diameters across. From memory. */
const THROWN = 0.75;

/** From the highest wood to the lowest tip of a through cut. */
function through(part: Part, { machine }: LeastShop): number {
  return part.thickness.max + machine.bedAllowance;
}

function quickest(
  { machine, cutters }: LeastShop,
  depth: number,
  needed: (cutter: Cutter, stepover: number) => Needed | null,
): Omit<Least, "id"> {
  const ways = cutters
    .filter((c) => isEndMill(c) && c.fluteLength >= depth)
    .flatMap((cutter) => {
      const [slot, side] = (["slot", "clearing"] as const).map((kind) =>
        cuttingData(cutter, machine, "plywood", { kind, depth }),
      ) as [CuttingData, CuttingData];
      const ask = needed(cutter, side.stepover);
      if (ask === null || ask.walls.length === 0) return [];
      const feed = Math.max(slot.feedMmPerMin, side.feedMmPerMin);
      const passes = Math.ceil(depth / slot.depthPerPass - 1e-9);
      const level = ask.walls.reduce((sum, wall) => sum + trackSeconds(wall, feed, passes, machine), 0);
      const inner = (60 * passes * ask.inner) / feed;
      const seconds = level + inner + entrySeconds(depth, passes, feed, slot, machine);
      // Along a short track a ramp goes round and round.
      const turns = depth / Math.tan(PLAN_OPTIONS.rampAngle) / lengthOf(ask.innermost);
      const elements = passes * ask.elements + Math.floor(turns) * segments(ask.innermost).length;
      return [{ seconds, elements }];
    });
  if (ways.length === 0) throw new RangeError("no cutter fits");
  return ways.reduce((best, way) => (way.seconds < best.seconds ? way : best));
}

function entrySeconds(
  depth: number,
  passes: number,
  feed: number,
  slot: CuttingData,
  machine: Machine,
): number {
  const run = 1 / Math.tan(PLAN_OPTIONS.rampAngle);
  const last = depth - (passes - 1) * slot.depthPerPass;
  return (
    upAndDown(machine.safeHeight, machine) / 2 +
    upAndDown(machine.safeHeight + depth, machine) / 2 +
    60 * depth * run * Math.max(0, 1 / slot.rampMmPerMin - 1 / feed) +
    (60 * last * run) / feed
  );
}

function leastHole(diameter: number, depth: number, shop: LeastShop): Omit<Least, "id"> {
  const ways = shop.cutters
    .filter((cutter) => cutter.fluteLength >= depth && cutter.diameter <= diameter + 0.05)
    .flatMap((cutter) => {
      const fits = diameter - cutter.diameter;
      if (fits <= 0.15 * cutter.diameter) return fits <= 0.05 ? [drilled(cutter, depth, shop.machine)] : [];
      return isEndMill(cutter) ? [wound(cutter, fits / 2, depth, shop.machine)] : [];
    });
  if (ways.length === 0) throw new RangeError(`nothing makes a hole of ${diameter}`);
  return ways.reduce((best, way) => (way.seconds < best.seconds ? way : best));
}

function drilled(cutter: Cutter, depth: number, machine: Machine): Omit<Least, "id"> {
  const kind = cutter.kind === "drill" ? "drilling" : "slot";
  const data = cuttingData(cutter, machine, "plywood", { kind, depth });
  const pecks = Math.ceil(depth / data.depthPerPass - 1e-9);
  let seconds = (60 * depth) / data.plungeMmPerMin;
  for (let i = 1; i < pecks; i++) seconds += upAndDown(depth - i * data.depthPerPass, machine);
  seconds += upAndDown(machine.safeHeight, machine) / 2 + upAndDown(machine.safeHeight + depth, machine) / 2;
  return { seconds, elements: pecks };
}

function wound(cutter: Cutter, radius: number, depth: number, machine: Machine): Omit<Least, "id"> {
  const data = cuttingData(cutter, machine, "plywood", { kind: "slot", depth });
  const round = 2 * Math.PI * radius;
  // Round so small a circle the machine is slower than the feed.
  const fastest = 60 * Math.sqrt(machine.accelerationMmPerS2.xy * radius);
  const turns = depth / Math.tan(PLAN_OPTIONS.rampAngle) / round;
  const seconds =
    (60 * turns * round) / Math.min(data.rampMmPerMin, fastest) +
    (60 * round) / Math.min(data.feedMmPerMin, fastest) +
    upAndDown(machine.safeHeight, machine) / 2 +
    upAndDown(machine.safeHeight + depth, machine) / 2;
  return { seconds, elements: 2 * Math.ceil(turns + 1) };
}

/** Along a track `passes` times without a stop. */
function trackSeconds(track: readonly Segment[], feed: number, passes: number, machine: Machine): number {
  const first = track[0]!.from;
  const isClosed = Math.hypot(track.at(-1)!.to.x - first.x, track.at(-1)!.to.y - first.y) < 1e-3;
  const moves = track.map((s): Move => {
    const to = { x: s.to.x, y: s.to.y, z: 0 };
    return s.kind === "line"
      ? { kind: "line", to, feed }
      : { kind: "arc", to, centre: s.centre, sweep: s.sweep, feed };
  });
  const start = { x: first.x, y: first.y, z: 0 };
  if (isClosed) {
    const all = Array.from({ length: passes }, () => moves).flat();
    return 60 * minutesOf(all, machine, start);
  }
  return passes * 60 * minutesOf(moves, machine, start);
}

function upAndDown(height: number, machine: Machine): number {
  const [low, high] = [
    { x: 0, y: 0, z: 0 },
    { x: 0, y: 0, z: height },
  ];
  return 2 * 60 * minutesOf([{ kind: "rapid", to: high }], machine, low);
}

function isEndMill({ kind }: Cutter): boolean {
  return kind !== "drill" && kind !== "round-over" && kind !== "v";
}
