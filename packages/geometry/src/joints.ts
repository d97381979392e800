import { arctangent } from "./arctangent.ts";
import { GRID_MM } from "./clipper.ts";
import { carrierCrossings, offCarrier, ontoCarrier } from "./crossing.ts";
import type { Segment } from "./curve.ts";
import { chordAngle } from "./flatten.ts";
import { cross, distance, dot, type Point, subtract } from "./point.ts";
import { circle } from "./shapes.ts";
import { gathered, type Stretch, strayOf, turnAbout } from "./stretch.ts";
import { FLATTENING_MM, SAME_POINT_MM } from "./tolerance.ts";

/**
 * The stretches as segments that meet exactly: where two carriers cross, or at the corner that they had in
 * common before. Stretches that the true corners leave no room for are dropped.
 */
export function joined(stretches: readonly Stretch[]): Segment[] {
  let list = [...stretches];
  /** Stretches between two curves that all but coincide, whose ends stay where the clipper put them. */
  const held = new Set<Stretch>();
  for (;;) {
    if (list.length < 2) return list.flatMap(wholeCircle);
    const at = (i: number): Stretch => list[(i + list.length) % list.length]!;
    const corners = list.map((s, i) =>
      held.has(s) || held.has(at(i - 1)) ? clippedCorner(at(i - 1), s) : corner(at(i - 1), s),
    );
    const parts = list.map((s, i) => between(s, corners[i]!, corners[(i + 1) % list.length]!));
    const lost = list.map((_, i) => i).filter((i) => parts[i] === undefined);
    if (lost.length === 0) return parts as Segment[];
    const long = lost.filter((i) => !held.has(at(i)) && isLong(at(i - 1), at(i), at(i + 1)));
    for (const i of long) held.add(at(i));
    if (long.length === 0) list = without(list, apart(lost, list.length));
  }
}

/** Of neighbours in a ring of `count` only the first: what it leaves behind may make room for the next. */
function apart(places: readonly number[], count: number): number[] {
  const kept: number[] = [];
  for (const place of places) {
    const next = kept.at(-1) === place - 1 || (place === count - 1 && kept[0] === 0);
    if (!next) kept.push(place);
  }
  return kept;
}

/** The neighbour that a lost stretch all but lies on takes its place; perhaps it is one with the other then. */
function without(list: readonly Stretch[], lost: readonly number[]): Stretch[] {
  const rest: (Stretch | undefined)[] = [...list];
  for (const i of lost) {
    const [before, after] = [(i + list.length - 1) % list.length, (i + 1) % list.length];
    const [a, gone, b] = [rest[before]!, rest[i]!, rest[after]!];
    rest[i] = undefined;
    if (a === b) continue;
    if (strayOf(gone, a) <= strayOf(gone, b))
      rest[before] = { ...a, to: gone.to, turn: a.turn + turnAbout(a, gone) };
    else rest[after] = { ...b, from: gone.from, turn: b.turn + turnAbout(b, gone) };
  }
  return gathered(rest.filter((s) => s !== undefined));
}

/** Longer than chords could make one up where the curves on either side just touch. */
function isLong(before: Stretch, stretch: Stretch, after: Stretch): boolean {
  const { carrier, from, to, turn } = stretch;
  const length = carrier.kind === "line" ? distance(from, to) : carrier.radius * Math.abs(turn);
  return length > slackAmong(before, stretch, after);
}

/** How far along the curves chords and the grid may misplace a corner between them. */
function slackAmong(...stretches: readonly Stretch[]): number {
  const radius = Math.max(...stretches.map(({ carrier }) => (carrier.kind === "line" ? 0 : carrier.radius)));
  return 10 * FLATTENING_MM + 2 * radius * chordAngle(radius, FLATTENING_MM);
}

/** How far off its carrier a corner of ours may be: float noise in coordinates of metres. */
const ON_MM: number = SAME_POINT_MM / 10;

/** A corner of the clipper's is this near to the exact one, if they are the same. */
const SNAP_MM: number = 4 * GRID_MM;

/** Chords, each off by as much as it may be, make curves meet that pass each other by this. */
const MISS_MM: number = 2 * FLATTENING_MM;

function corner(a: Stretch, b: Stretch): Point {
  const near = clippedCorner(a, b);
  for (const p of [a.last.to, b.first.from, a.last.from, b.first.to]) {
    if (
      distance(p, near) <= SNAP_MM &&
      offCarrier(a.carrier, p) <= ON_MM &&
      offCarrier(b.carrier, p) <= ON_MM
    )
      return p;
  }
  let best: Point | undefined;
  for (const p of carrierCrossings(a.carrier, b.carrier, MISS_MM)) {
    if (best === undefined || distance(p, near) < distance(best, near)) best = p;
  }
  const known = best !== undefined && distance(best, near) <= slackAmong(a, b);
  return known && keepTogether(a.carrier, b.carrier, near, best!) ? best! : near;
}

function clippedCorner(a: Stretch, b: Stretch): Point {
  return { x: (a.to.x + b.from.x) / 2, y: (a.to.y + b.from.y) / 2 };
}

/** From the clipper's corner to the exact one the two carriers must not part by more than chords explain. */
function keepTogether(a: Segment, b: Segment, near: Point, exact: Point): boolean {
  const middle = ontoCarrier(a, { x: (near.x + exact.x) / 2, y: (near.y + exact.y) / 2 });
  return offCarrier(b, middle) <= MISS_MM;
}

/** The part of a stretch between its exact ends, or nothing where they left no room for it. */
function between({ carrier, turn }: Stretch, from: Point, to: Point): Segment | undefined {
  if (carrier.kind === "line") {
    const d = subtract(carrier.to, carrier.from);
    const ahead = dot(d, subtract(to, from)) / Math.hypot(d.x, d.y);
    return ahead > SAME_POINT_MM ? { kind: "line", from, to } : undefined;
  }
  const [p, q] = [subtract(from, carrier.centre), subtract(to, carrier.centre)];
  const short = arctangent(cross(p, q), dot(p, q));
  const sweep = short + 2 * Math.PI * Math.round((turn - short) / (2 * Math.PI));
  if (sweep * Math.sign(carrier.sweep) * carrier.radius <= SAME_POINT_MM) return undefined;
  return { ...carrier, from, to, sweep };
}

/** A stretch without neighbours goes all the way round, or it is what is left of nothing. */
function wholeCircle({ carrier, turn }: Stretch): Segment[] {
  if (carrier.kind === "line" || Math.abs(turn) < Math.PI) return [];
  const [left, right] = circle(carrier.centre, carrier.radius).vertices;
  const sweep = Math.sign(carrier.sweep) * Math.PI;
  return [
    { ...carrier, from: left!, to: right!, sweep },
    { ...carrier, from: right!, to: left!, sweep },
  ];
}
