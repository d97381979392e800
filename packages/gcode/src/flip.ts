import {
  type Box,
  boundsOf,
  circle,
  contains,
  distance,
  distanceTo,
  flatten,
  type Loop,
  once,
  type Placement,
  type Point,
  placement,
  type Region,
} from "@dryfit/geometry";
import type { Face } from "@dryfit/joinery";
import type { Stock } from "@dryfit/nest";
import type { Flip } from "./program.ts";

/**
 * The frames of a sheet's two setups.
 *
 * Setup A is the sheet frame. For setup B the sheet is turned over about a line half way across it, so it comes
 * to lie on the very spot where it lay: axis "y" (the line x = at) sends x to 2·at − x and keeps y, axis "x"
 * (the line y = at) sends y to 2·at − y and keeps x. As `at` is half the sheet's size, the origin of setup B is
 * again the lower left of the sheet as it lies, and the work zero stays.
 */
export function setupFrames(flip: Flip | null): Readonly<Record<Face, Placement<"setup", "sheet">>> {
  const same = placement<"setup", "sheet">({ x: 0, y: 0 });
  if (flip === null) return { A: same, B: same };
  const B =
    flip.axis === "y"
      ? placement<"setup", "sheet">({ x: 2 * flip.at, y: 0 }, { flip: true })
      : placement<"setup", "sheet">({ x: 0, y: 2 * flip.at }, { flip: true, quarters: 2 });
  return { A: same, B };
}

/** How a sheet is turned over, and where the pins stand that find its place again; sheet frame. */
export interface Turning {
  readonly flip: Flip;
  readonly pins: readonly Point<"sheet">[];
}

/** What pins must keep clear of: `air` is the least way from a pin's middle to a part, mm. */
export interface PinRoom {
  readonly stock: Stock;
  readonly outlines: readonly Loop<"sheet">[];
  readonly air: number;
  /** Least way from a pin's middle to the sheet's edge, and by how much two spacings must differ, mm. */
  readonly edge: number;
  readonly differ: number;
}

/**
 * An axis and its pins in waste: a pattern that is its own mirror image about the axis and has no other symmetry, so
 * the sheet fits on its pins as it lay, turned over about the axis, and no other way.
 *
 * Three on the axis with unequal gaps, where these hold the parts well enough. Else whatever holds them best, one on
 * the axis and a pair beside it or two unlike pairs among it. Null: no room.
 */
export function turningOf(room: PinRoom): Turning | null {
  const [x, y] = room.stock.size;
  const flips: Flip[] = [
    { axis: "y", at: x / 2 },
    { axis: "x", at: y / 2 },
  ];
  const held = room.outlines.length > 0 ? room.outlines.map((loop) => boundsOf(loop)) : [SHEET(x, y)];
  const places = held.flatMap(({ min, max }) => [min, max, { x: min.x, y: max.y }, { x: max.x, y: min.y }]);
  const sway = ({ pins }: Turning): number => swayOf(pins, places);
  const pairsOn = once((flip: Flip) => pairsOf(flip, room));
  let best: Turning | null = null;
  for (const pattern of [onAxis, withPair, twoPairs]) {
    const found = flips.flatMap((flip): Turning[] => {
      const pins = pattern(flip, room, pairsOn);
      return pins === null ? [] : [{ flip, pins }];
    });
    for (const one of found) if (best === null || sway(one) < sway(best) - 1e-9) best = one;
    if (best !== null && sway(best) <= STEADY) return best;
  }
  return best;
}

const SHEET = (x: number, y: number): Box<"sheet"> => ({ min: { x: 0, y: 0 }, max: { x, y } });

/** Pins that let no part go farther than this, for each mm that one pin alone would, hold well. From memory. */
const STEADY = 3;

/**
 * How far a sheet on these pins can go at the worst of the places, over how far it can go at a single pin: two pins
 * let it move along their line, and turn. Derived: the greatest displacement of a rigid body, two of whose points
 * stay within discs; of all pairs the one that holds best.
 */
function swayOf(pins: readonly Point<"sheet">[], places: readonly Point<"sheet">[]): number {
  const pairs = pins.flatMap((a, i) => pins.slice(i + 1).map((b) => [a, b] as const));
  return Math.min(
    ...pairs.map(([a, b]) => {
      const [ux, uy, length] = [b.x - a.x, b.y - a.y, distance(a, b)];
      return Math.max(
        ...places.map((p) => {
          const along = ((p.x - a.x) * ux + (p.y - a.y) * uy) / length ** 2;
          const aside = ((p.y - a.y) * ux - (p.x - a.x) * uy) / length ** 2;
          const [turn, shift] = [4 * aside ** 2, (1 - 2 * along) ** 2];
          const half = (1 + turn + shift) / 2;
          return Math.sqrt(half + Math.sqrt(Math.max(0, half ** 2 - shift)));
        }),
      );
    }),
  );
}

/**
 * Where pins would do least harm to a layout that leaves them no room: one at the middle of an edge and two in the
 * corners over against it. As discs to keep clear of; none where the sheet is too small for any pattern.
 */
export function pinLandsOn(room: Omit<PinRoom, "outlines">): readonly Region<"sheet">[] {
  const [x, y] = room.stock.size;
  const flips: Flip[] = [
    { axis: "y", at: x / 2 },
    { axis: "x", at: y / 2 },
  ];
  const found = flips.flatMap((flip) => {
    const bare = { ...room, outlines: [] };
    const pins = withPair(flip, bare, () => pairsOf(flip, bare));
    return pins === null ? [] : [pins];
  });
  const gap = ([single, pair]: readonly Point<"sheet">[]): number => distance(single!, pair!);
  const [pins = []] = found.sort((a, b) => gap(b) - gap(a));
  // A hair wider, so that the pins find their places again beside parts that touch the discs.
  return pins.map((at) => ({ outer: circle(at, room.air + LAND_MM), holes: [] }));
}

const LAND_MM = 0.01;

/** How finely places for pins are tried, mm. */
const TRIAL_MM = 5;

function onAxis(flip: Flip, room: PinRoom): Point<"sheet">[] | null {
  const free = waysAlong(flip, room).filter((way) => isFree(spot(flip, way, 0), room));
  const [first, last] = [free[0], free.at(-1)];
  if (first === undefined || last === undefined || last - first < 4 * room.differ) return null;
  const third = first + (last - first) / 3;
  const between = free
    .filter((way) => way - first >= room.differ && Math.abs(last - way - (way - first)) >= room.differ)
    .filter((way) => last - way >= room.differ)
    .sort((a, b) => Math.abs(a - third) - Math.abs(b - third))[0];
  return between === undefined ? null : [first, between, last].map((way) => spot(flip, way, 0));
}

/** One pin on the axis and a pair beside it, the pair as far off along the axis as may be. */
function withPair(flip: Flip, room: PinRoom, pairsOn: PairsOn): Point<"sheet">[] | null {
  const single = waysAlong(flip, room).filter((way) => isFree(spot(flip, way, 0), room));
  const pairs = pairsOn(flip);
  let best: { gap: number; pins: Point<"sheet">[] } | null = null;
  for (const way of [single[0], single.at(-1)]) {
    if (way === undefined) continue;
    for (const pair of pairs) {
      const gap = Math.abs(pair.way - way);
      if (gap >= 2 * room.differ && gap > (best?.gap ?? 0)) {
        best = {
          gap,
          pins: [spot(flip, way, 0), spot(flip, pair.way, -pair.aside), spot(flip, pair.way, pair.aside)],
        };
      }
    }
  }
  return best?.pins ?? null;
}

/** Two pairs of unlike width. */
function twoPairs(flip: Flip, room: PinRoom, pairsOn: PairsOn): Point<"sheet">[] | null {
  const pairs = pairsOn(flip);
  let best: { gap: number; pins: Point<"sheet">[] } | null = null;
  for (const a of pairs)
    for (const b of pairs) {
      const gap = b.way - a.way;
      if (gap < 2 * room.differ || Math.abs(a.aside - b.aside) < room.differ || gap <= (best?.gap ?? 0))
        continue;
      const both = [a, b].flatMap((p) => [spot(flip, p.way, -p.aside), spot(flip, p.way, p.aside)]);
      best = { gap, pins: both };
    }
  return best?.pins ?? null;
}

type PairsOn = (flip: Flip) => readonly Pair[];

interface Pair {
  readonly way: number;
  readonly aside: number;
}

/** At each way along the axis the widest and the narrowest free pair: enough to choose from. */
function pairsOf(flip: Flip, room: PinRoom): Pair[] {
  const across = flip.axis === "y" ? room.stock.size[0] : room.stock.size[1];
  const count = Math.max(0, Math.floor((across / 2 - room.edge - room.differ) / TRIAL_MM) + 1);
  const asides = Array.from({ length: count }, (_, i) => room.differ + i * TRIAL_MM);
  return waysAlong(flip, room).flatMap((way) => {
    const free = (aside: number): boolean => [aside, -aside].every((d) => isFree(spot(flip, way, d), room));
    const narrowest = asides.find(free);
    if (narrowest === undefined) return [];
    return [...new Set([narrowest, asides.findLast(free)!])].map((aside) => ({ way, aside }));
  });
}

function waysAlong(flip: Flip, { stock, edge }: PinRoom): number[] {
  const length = flip.axis === "y" ? stock.size[1] : stock.size[0];
  const count = Math.floor((length - 2 * edge) / TRIAL_MM);
  return Array.from({ length: Math.max(0, count + 1) }, (_, i) => edge + i * TRIAL_MM);
}

function spot({ axis, at }: Flip, way: number, aside: number): Point<"sheet"> {
  return axis === "y" ? { x: at + aside, y: way } : { x: way, y: at + aside };
}

function isFree(p: Point<"sheet">, { stock, outlines, air, edge }: PinRoom): boolean {
  if (stock.outline !== null) {
    if (contains(stock.outline, p) !== "inside") return false;
    if ([stock.outline.outer, ...stock.outline.holes].some((loop) => distanceTo(loop, p) < edge))
      return false;
  }
  return (
    outlines.every((outer) => isClear(outer, p, air)) && stock.keepOuts.every((k) => isClear(k.outer, p, air))
  );
}

/** Whether a place lies outside, `air` off at least. Thousands of places are tried: most are far off, or well inside. */
function isClear(outer: Loop<"sheet">, p: Point<"sheet">, air: number): boolean {
  const { min, max } = boundsOf(outer);
  if (p.x < min.x - air || p.x > max.x + air || p.y < min.y - air || p.y > max.y + air) return true;
  // Between chord and arc it is too near all the same.
  return !isWithin(chordsOf(outer), p) && distanceTo(outer, p) >= air;
}

const chordsOf = once((outer: Loop): readonly Point[] => flatten(outer, CHORD_MM));

/** How far a chord may stand off its arc, mm: far less than any pin's air. */
const CHORD_MM = 0.1;

/** Whether a ray to the right leaves the polygon once more than it enters it. */
function isWithin(polygon: readonly Point[], { x, y }: Point): boolean {
  let inside = false;
  let from = polygon.at(-1)!;
  for (const to of polygon) {
    if (from.y > y !== to.y > y && x < from.x + ((to.x - from.x) * (y - from.y)) / (to.y - from.y))
      inside = !inside;
    from = to;
  }
  return inside;
}
