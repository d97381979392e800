import { arctangent } from "./arctangent.ts";
import { GRID_MM } from "./clipper.ts";
import { offCarrier } from "./crossing.ts";
import type { Arc, Line, Segment } from "./curve.ts";
import { cross, distance, dot, type Point, subtract } from "./point.ts";
import { reversedSegment, turnedAbout } from "./segment.ts";
import type { SideIndex } from "./side-index.ts";
import { withoutSpikes } from "./spikes.ts";
import { FLATTENING_MM, SAME_POINT_MM } from "./tolerance.ts";

/** What a clipped ring keeps of one line or circle, before its ends are known exactly. */
export interface Stretch {
  /** The line or arc that it lies on, run as the ring runs. */
  readonly carrier: Segment;
  /** The line or arc at either end, where several make up one stretch. */
  readonly first: Segment;
  readonly last: Segment;
  readonly from: Point;
  readonly to: Point;
  /** About how far round its centre it goes, radians; 0 for a line. */
  readonly turn: number;
}

/** Shorter sides are the clipper's rounding. */
const CRUMB_MM: number = 3 * GRID_MM;

/** Two lines in line to within this are one: float noise, far below a step of the grid. */
const IN_LINE_MM: number = SAME_POINT_MM / 100;

/** A clipped ring's sides gathered by the line or circle that they lie on; nothing where it has no width. */
export function stretchesOf(ring: readonly Point[], index: SideIndex): Stretch[] {
  const points = withoutSpikes(ring, CRUMB_MM);
  const corner = (i: number): Point => points[i % points.length]!;
  const owners = points.map((p, i): Segment => {
    const next = corner(i + 1);
    return index.ownerOf(p, next) ?? { kind: "line", from: p, to: next };
  });
  const found: Stretch[] = [];
  for (let i = 0; i < points.length; ) {
    const [first, owner] = [i, owners[i]!];
    const ahead = advance(owner, corner(i), corner(i + 1));
    let total = 0;
    // Most sides are one more chord of the arc before.
    for (let step = ahead; i < points.length && owners[i] === owner && step > 0 === ahead > 0; ) {
      total += step;
      i++;
      step = advance(owner, corner(i), corner(i + 1));
    }
    const carrier = ahead > 0 ? owner : reversedSegment(owner);
    const turn = owner.kind === "line" ? 0 : total * Math.sign(owner.sweep);
    found.push({ carrier, first: carrier, last: carrier, from: corner(first), to: corner(i), turn });
  }
  return gathered(found);
}

/** Goes on with the last stretch, perhaps after a moment on another curve, or starts a new one. */
function add(list: Stretch[], next: Stretch): void {
  const [before, last] = [list.at(-2), list.at(-1)];
  if (last !== undefined && runOn(last, next)) {
    list.splice(-1, 1, together(last, next));
  } else if (
    before !== undefined &&
    last !== undefined &&
    runOn(before, next) &&
    strayOf(last, before) <= FLATTENING_MM
  ) {
    // Where two curves all but coincide their chords cross time and again.
    list.splice(-2, 2, together(before, { ...next, turn: turnAbout(before, last) + next.turn }));
  } else list.push(next);
}

/** How far a stretch strays from another's line or circle. */
export function strayOf({ carrier, from, to, turn }: Stretch, other: Stretch): number {
  const middle =
    carrier.kind === "line"
      ? { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }
      : turnedAbout(carrier.centre, from, turn / 2);
  return Math.max(...[from, middle, to].map((p) => offCarrier(other.carrier, p)));
}

/** How far the one stretch goes round the centre of the other. */
export function turnAbout({ carrier }: Stretch, { from, to }: Stretch): number {
  return carrier.kind === "line" ? 0 : advance(carrier, from, to) * Math.sign(carrier.sweep);
}

/** How far a side goes along its owner: mm on a line, radians on an arc; negative where it goes back. */
function advance(owner: Segment, from: Point, to: Point): number {
  if (owner.kind === "line") return dot(subtract(owner.to, owner.from), subtract(to, from));
  const [p, q] = [subtract(from, owner.centre), subtract(to, owner.centre)];
  return arctangent(cross(p, q), dot(p, q)) * Math.sign(owner.sweep);
}

/** Neighbours on one line or circle as one, across the seam where the ring starts, too. */
export function gathered(stretches: readonly Stretch[]): Stretch[] {
  const list: Stretch[] = [];
  for (const s of stretches) add(list, s);
  for (let seam = 0; seam < 2 && list.length > 1; seam++) add(list, list.shift()!);
  return list;
}

function runOn(a: Stretch, b: Stretch): boolean {
  if (a.carrier === b.carrier) return true;
  if (a.carrier.kind === "line") return b.carrier.kind === "line" && inLine(a.carrier, b.carrier);
  return b.carrier.kind === "arc" && onOneCircle(a.carrier, b.carrier);
}

function together(a: Stretch, b: Stretch): Stretch {
  return { ...a, last: b.last, to: b.to, turn: a.turn + b.turn };
}

function inLine(a: Line, b: Line): boolean {
  const [d, e] = [subtract(a.to, a.from), subtract(b.to, b.from)];
  if (dot(d, e) <= 0) return false;
  const [long, short] = dot(d, d) >= dot(e, e) ? [a, b] : [b, a];
  const along = subtract(long.to, long.from);
  const length = Math.hypot(along.x, along.y);
  return [short.from, short.to].every(
    (p) => Math.abs(cross(along, subtract(p, long.from))) <= IN_LINE_MM * length,
  );
}

function onOneCircle(a: Arc, b: Arc): boolean {
  return (
    a.sweep > 0 === b.sweep > 0 &&
    distance(a.centre, b.centre) <= SAME_POINT_MM &&
    Math.abs(a.radius - b.radius) <= SAME_POINT_MM
  );
}
