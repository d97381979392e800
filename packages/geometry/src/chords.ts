import { arctangent } from "./arctangent.ts";
import { boxTree } from "./box-tree.ts";
import type { Arc, Segment } from "./curve.ts";
import { chordAngle } from "./flatten.ts";
import { distance, type Point } from "./point.ts";
import { along } from "./segment.ts";
import { cosine, sine } from "./sine.ts";
import { FLATTENING_MM, SAME_POINT_MM } from "./tolerance.ts";

/** A closed ring of chords, each knowing the line or arc that it stands for. */
export interface ChordRing {
  readonly points: readonly Point[];
  /** `owners[i]` for the side from point i to the next; nothing where a gap of float noise is bridged. */
  readonly owners: readonly (Segment | undefined)[];
}

/**
 * Closed runs of segments as rings of chords for the clipper.
 *
 * Arcs on one circle share their chords wherever they run together, however differently they start and
 * end: else their chords would leave slivers as wide as the flattening between them. So do slanted lines,
 * which would part by a step of the clipper's grid; upright and level ones keep together on it anyway.
 */
export function chordRings(runs: readonly (readonly Segment[])[]): ChordRing[] {
  const sides = runs.flat();
  const between = pointsOnArcs(sides);
  for (const [line, points] of cornersOnLines(sides)) between.set(line, points);
  return runs.map((run) => chordRing(run, between));
}

function chordRing(run: readonly Segment[], between: ReadonlyMap<Segment, readonly Point[]>): ChordRing {
  const points: Point[] = [];
  const owners: (Segment | undefined)[] = [];
  run.forEach((s, i) => {
    points.push(s.from, ...(between.get(s) ?? []));
    while (owners.length < points.length) owners.push(s);
    const next = run[(i + 1) % run.length]!;
    if (s.to.x === next.from.x && s.to.y === next.from.y) return;
    points.push(s.to);
    const gap = distance(s.to, next.from);
    owners.push(gap <= SAME_POINT_MM ? undefined : { kind: "line", from: s.to, to: next.from });
  });
  return { points, owners };
}

/** Each arc's points between its ends. */
function pointsOnArcs(sides: readonly Segment[]): Map<Segment, readonly Point[]> {
  const found = new Map<Segment, readonly Point[]>();
  for (const circle of onOneCircle(sides.filter((s) => s.kind === "arc"))) {
    const [only] = circle;
    if (circle.length === 1) found.set(only!, evenPoints(only!));
    else for (const [arc, points] of sharedPoints(circle)) found.set(arc, points);
  }
  return found;
}

function evenPoints(arc: Arc): Point[] {
  const steps = Math.ceil(Math.abs(arc.sweep) / chordAngle(arc.radius, FLATTENING_MM));
  return Array.from({ length: Math.max(0, steps - 1) }, (_, i) => along(arc, (i + 1) / steps));
}

/** The circle is cut at every arc's ends, and each stretch between two cuts divided evenly. */
function sharedPoints(arcs: readonly Arc[]): [Arc, Point[]][] {
  const { centre, radius } = arcs[0]!;
  const same = SAME_POINT_MM / radius;
  const starts = arcs.map(lowAngle);
  const ends = arcs.map((arc, i) => turnsOff(starts[i]! + Math.abs(arc.sweep)));
  const marks = marksBetween(distinct([...starts, ...ends], same), chordAngle(radius, FLATTENING_MM));
  const points: (Point | undefined)[] = [];
  const pointAt = (k: number): Point => {
    const a = marks[k]!;
    points[k] ??= { x: centre.x + radius * cosine(a), y: centre.y + radius * sine(a) };
    return points[k];
  };
  return arcs.map((arc, i) => {
    const [low, high] = [starts[i]! + same, starts[i]! + Math.abs(arc.sweep) - same];
    const inner: Point[] = [];
    const first = marks.findIndex((mark) => mark > low);
    for (let k = first < 0 ? marks.length : first; ; k++) {
      const round = k < marks.length ? 0 : FULL_TURN;
      const mark = marks[k % marks.length]! + round;
      if (mark >= high) break;
      if (mark > low) inner.push(pointAt(k % marks.length));
    }
    return [arc, arc.sweep > 0 ? inner : inner.reverse()];
  });
}

/** All round from the first cut, every cut and even steps between cuts. */
function marksBetween(cuts: readonly number[], step: number): number[] {
  const marks: number[] = [];
  cuts.forEach((cut, i) => {
    const next = i + 1 < cuts.length ? cuts[i + 1]! : cuts[0]! + FULL_TURN;
    const steps = Math.ceil((next - cut) / step);
    for (let k = 0; k < steps; k++) marks.push(cut + ((next - cut) * k) / steps);
  });
  return marks;
}

const FULL_TURN: number = 2 * Math.PI;

/** Where on its circle the arc starts when run counter-clockwise, from 0 to 2π. */
function lowAngle({ from, to, centre, sweep }: Arc): number {
  const p = sweep > 0 ? from : to;
  return turnsOff(arctangent(p.y - centre.y, p.x - centre.x));
}

function turnsOff(angle: number): number {
  const rest = angle - FULL_TURN * Math.floor(angle / FULL_TURN);
  return rest >= FULL_TURN ? 0 : rest;
}

/** In rising order, one of each bunch; a bunch across 0 is one, too. */
function distinct(angles: readonly number[], same: number): number[] {
  const sorted = [...angles].sort((a, b) => a - b);
  const kept = sorted.filter((angle, i) => i === 0 || angle - sorted[i - 1]! > same);
  const wraps = kept.length > 1 && kept[0]! + FULL_TURN - sorted.at(-1)! <= same;
  return wraps ? kept.slice(0, -1) : kept;
}

function onOneCircle(arcs: readonly Arc[]): Arc[][] {
  return bunches([...arcs], (arc) => arc.centre.x)
    .flatMap((list) => bunches(list, (arc) => arc.centre.y))
    .flatMap((list) => bunches(list, (arc) => arc.radius));
}

function bunches(list: Arc[], key: (arc: Arc) => number): Arc[][] {
  list.sort((a, b) => key(a) - key(b));
  const found: Arc[][] = [];
  list.forEach((arc, i) => {
    if (i > 0 && key(arc) - key(list[i - 1]!) <= SAME_POINT_MM) found.at(-1)!.push(arc);
    else found.push([arc]);
  });
  return found;
}

/** The corners of others that lie on a slanted line, in order along it. */
function cornersOnLines(sides: readonly Segment[]): Map<Segment, readonly Point[]> {
  const slanted = sides.filter((s) => s.kind === "line" && s.from.x !== s.to.x && s.from.y !== s.to.y);
  const found = new Map<Segment, Point[]>();
  if (slanted.length === 0) return found;
  const tree = boxTree(boxesRound(slanted));
  for (const { from: p } of sides) {
    tree.visit(p.x, p.y, p.x, p.y, (i) => {
      const line = slanted[i]!;
      if (!liesBetweenEnds(line, p)) return;
      const points = found.get(line);
      if (points === undefined) found.set(line, [p]);
      else points.push(p);
    });
  }
  for (const [line, points] of found) {
    points.sort((p, q) => distance(line.from, p) - distance(line.from, q));
  }
  return found;
}

function boxesRound(sides: readonly Segment[]): Float64Array {
  const boxes = new Float64Array(4 * sides.length);
  sides.forEach(({ from, to }, i) => {
    boxes[4 * i] = Math.min(from.x, to.x);
    boxes[4 * i + 1] = Math.min(from.y, to.y);
    boxes[4 * i + 2] = Math.max(from.x, to.x);
    boxes[4 * i + 3] = Math.max(from.y, to.y);
  });
  return boxes;
}

/** Within SAME_POINT_MM of the line, and further than that from its ends. */
function liesBetweenEnds({ from, to }: Segment, p: Point): boolean {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const [x, y] = [p.x - from.x, p.y - from.y];
  const square = dx * dx + dy * dy;
  const off = x * dy - y * dx;
  if (off * off > SAME_POINT_MM * SAME_POINT_MM * square) return false;
  const along = (x * dx + y * dy) / Math.sqrt(square);
  return along > SAME_POINT_MM && along < Math.sqrt(square) - SAME_POINT_MM;
}
