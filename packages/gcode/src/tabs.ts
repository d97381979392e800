import {
  along,
  boundsOf,
  contains,
  directionAt,
  distanceTo,
  type Loop,
  offset,
  type Path,
  type Point,
  type Region,
  segmentLength,
  segments,
} from "@dryfit/geometry";
import { LARGE_MM2, SMALL_MM2 } from "./plan-task.ts";
import { type Track, trackLength } from "./plan-track.ts";
import { LIFT_SLOPE, type Lift } from "./profile.ts";

/** What is to be held while it is cut along `track`, counter-clockwise; its edge lies on that side of the way. */
export interface Held {
  readonly track: Track;
  readonly edge: "left" | "right";
  /** Of the part, mm². */
  readonly area: number;
  /** Where no tab may stand: mating stretches … */
  readonly mating: readonly Path[];
  /** … and recesses, which leave a tongue or nothing at the edge. */
  readonly recesses: readonly Region[];
}

/** A part held while a cutter of this radius goes round its outline. */
export function heldOutline(
  { loop, mating, recesses }: { readonly loop: Loop } & Pick<Held, "mating" | "recesses">,
  area: number,
  radius: number,
): Held[] {
  return offset([{ outer: loop, holes: [] }], radius).map(
    (axis): Held => ({ track: segments(axis.outer), edge: "left", area, mating, recesses }),
  );
}

export interface TabShape {
  readonly width: number;
  readonly height: number;
  readonly every: number;
}

/** A tab's middle on the part's edge, and the lift over it. */
export interface Standing {
  readonly at: Point;
  readonly lift: Lift;
}

/**
 * Where tabs stand: spread as evenly as straight stretches allow, none on a mating stretch, by a recess, at a
 * corner or on a curve tighter than GENTLE_MM. Straight stretches come first. Fewer than asked, down to none,
 * where there is no room for two; never so many that less than three quarters of the outline is left to cut.
 */
export function tabsFor(held: Held, shape: TabShape, radius: number): Standing[] {
  const wanted = tabCount(trackLength(held.track), held.area, shape.every);
  const length = tabLength(shape, radius);
  for (const gentle of [Infinity, GENTLE_MM]) {
    const free = places(held, { length, height: shape.height }, radius, gentle);
    const chosen = spreadOut(free, wanted, held.track, length);
    if (chosen.length >= 2) return chosen;
  }
  return [];
}

/** One for so much of the outline, at least two; three or four where the part is large. Common practice. */
export function tabCount(perimeter: number, area: number, every: number): number {
  const bySize = area < SMALL_MM2 ? 2 : area < LARGE_MM2 ? 3 : 4;
  return Math.max(bySize, Math.round(perimeter / every));
}

/** The length of edge on which a tab leaves any wood: its narrowest, the cutter's width, and both ramps. */
export function tabLength(shape: TabShape, radius: number): number {
  return shape.width + 2 * radius + (2 * shape.height) / LIFT_SLOPE;
}

/** Tightest curve that still bears a tab which can be cleaned off with a straight edge, mm. */
const GENTLE_MM = 150;

/** Wood between a tab's end and a corner, a mating stretch or a recess, mm. */
const CLEAR_MM = 3;

/** How finely places are tried along the track, mm. */
const TRIAL_MM = 4;

/** Most of the outline that tabs may leave standing. */
const MOST_SHARE = 0.25;

function places(
  held: Held,
  { length, height }: Pick<Lift, "length" | "height">,
  radius: number,
  gentle: number,
): Standing[] {
  const found: Standing[] = [];
  const obstacles = obstaclesOf(held);
  let before = 0;
  for (const segment of held.track) {
    const own = segmentLength(segment);
    const room = own - length - 2 * CLEAR_MM;
    const bears = segment.kind === "line" || segment.radius - radius >= gentle;
    if (bears && room >= 0) {
      const count = Math.max(1, Math.floor(room / TRIAL_MM));
      for (let i = 0; i <= count; i++) {
        const s = length / 2 + CLEAR_MM + (room * i) / count;
        const edge = (share: number): Point =>
          beside(segment, share, held.edge === "left" ? radius : -radius);
        const stretch = [-0.5, -0.25, 0, 0.25, 0.5].map((d) => edge((s + d * (length + 2 * CLEAR_MM)) / own));
        if (!stretch.some((p) => obstacles.some((hits) => hits(p))))
          found.push({ at: edge(s / own), lift: { s: before + s, length, height } });
      }
    }
    before += own;
  }
  return found;
}

/** Farthest-first: each next tab stands where the way to those that stand is longest. */
function spreadOut(from: readonly Standing[], wanted: number, track: Track, length: number): Standing[] {
  const round = trackLength(track);
  const most = Math.min(wanted, Math.floor((MOST_SHARE * round) / length));
  const away = (a: Standing, b: Standing): number => {
    const way = Math.abs(a.lift.s - b.lift.s);
    return Math.min(way, round - way);
  };
  const chosen: Standing[] = [];
  while (chosen.length < most) {
    const gaps = from.map((one) => Math.min(round, ...chosen.map((other) => away(one, other))));
    const widest = Math.max(...gaps);
    if (from.length === 0 || widest < 2 * length) break;
    chosen.push(from[gaps.indexOf(widest)]!);
  }
  return chosen.sort((a, b) => a.lift.s - b.lift.s);
}

type Obstacle = (p: Point) => boolean;

/** What a tab's stretch must not come near; each looks closely only at points in its own box. */
function obstaclesOf({ mating, recesses }: Held): Obstacle[] {
  const near = (curve: Loop | Path, hits: Obstacle): Obstacle => {
    const { min, max } = boundsOf(curve);
    return (p) =>
      p.x > min.x - CLEAR_MM &&
      p.x < max.x + CLEAR_MM &&
      p.y > min.y - CLEAR_MM &&
      p.y < max.y + CLEAR_MM &&
      hits(p);
  };
  return [
    ...mating.map((path) => near(path, (p) => distanceTo(path, p) < CLEAR_MM)),
    ...recesses.map((r) =>
      near(r.outer, (p) => contains(r, p) !== "outside" || distanceTo(r.outer, p) < CLEAR_MM),
    ),
  ];
}

/** The point `aside` to the left of the track. */
function beside(segment: Track[number], t: number, aside: number): Point {
  const [p, ahead] = [along(segment, t), directionAt(segment, Math.min(1, Math.max(0, t)))];
  return { x: p.x - ahead.y * aside, y: p.y + ahead.x * aside };
}
