import { arctangent, cross, distance, dot, type Point, type Segment, subtract } from "@dryfit/geometry";

/** The least distance between two segments, mm, and the point of `a` where it is. 0 where they meet. */
export interface Gap<F extends string> {
  readonly distance: number;
  readonly at: Point<F>;
}

/**
 * Exact for lines and arcs: the least distance is at a meeting, at an end, or where both run square to the
 * line between them.
 */
export function gapBetween<F extends string>(a: Segment<F>, b: Segment<F>): Gap<F> {
  let best: Gap<F> = { distance: Number.POSITIVE_INFINITY, at: a.from };
  const offer = (at: Point<F>, other: Point<F>) => {
    const far = distance(at, other);
    if (far < best.distance) best = { distance: far, at };
  };
  for (const end of [a.from, a.to]) offer(end, nearestOn(b, end));
  for (const end of [b.from, b.to]) offer(nearestOn(a, end), end);
  for (const met of meetings(a, b)) offer(met, met);
  for (const [at, other] of square(a, b)) if (on(a, at) && on(b, other)) offer(at, other);
  return best;
}

export function nearestOn<F extends string>(s: Segment<F>, p: Point<F>): Point<F> {
  if (s.kind === "line") {
    const along = subtract(s.to, s.from);
    const length = dot(along, along);
    const t = length === 0 ? 0 : Math.max(0, Math.min(1, dot(subtract(p, s.from), along) / length));
    return { x: s.from.x + along.x * t, y: s.from.y + along.y * t };
  }
  const out = subtract(p, s.centre);
  const far = Math.hypot(out.x, out.y);
  if (far > 0) {
    const foot = { x: s.centre.x + (out.x * s.radius) / far, y: s.centre.y + (out.y * s.radius) / far };
    if (on(s, foot)) return foot;
  }
  return distance(p, s.from) <= distance(p, s.to) ? s.from : s.to;
}

/** Whether a point of the segment's line or circle lies between its ends. */
function on<F extends string>(s: Segment<F>, p: Point<F>): boolean {
  if (s.kind === "line") {
    const along = subtract(s.to, s.from);
    const t = dot(subtract(p, s.from), along);
    return t >= 0 && t <= dot(along, along);
  }
  const [start, out] = [subtract(s.from, s.centre), subtract(p, s.centre)];
  const turn = arctangent(cross(start, out), dot(start, out)) * Math.sign(s.sweep);
  return (turn < 0 ? turn + 2 * Math.PI : turn) <= Math.abs(s.sweep);
}

function meetings<F extends string>(a: Segment<F>, b: Segment<F>): Point<F>[] {
  return carriersMeet(a, b).filter((p) => on(a, p) && on(b, p));
}

/** Where the lines and circles that carry two segments cross. */
function carriersMeet<F extends string>(a: Segment<F>, b: Segment<F>): Point<F>[] {
  if (a.kind === "arc" && b.kind === "line") return carriersMeet(b, a);
  if (a.kind === "line") {
    const along = subtract(a.to, a.from);
    const length = Math.hypot(along.x, along.y);
    if (length === 0) return [];
    const unit = { x: along.x / length, y: along.y / length };
    if (b.kind === "line") {
      const other = subtract(b.to, b.from);
      const spread = cross(unit, other);
      if (spread === 0) return [];
      const t = cross(subtract(b.from, a.from), other) / spread;
      return [{ x: a.from.x + unit.x * t, y: a.from.y + unit.y * t }];
    }
    const middle = dot(subtract(b.centre, a.from), unit);
    const off = cross(unit, subtract(b.centre, a.from));
    return halfChords(b.radius, off).map((half) => ({
      x: a.from.x + unit.x * (middle + half),
      y: a.from.y + unit.y * (middle + half),
    }));
  }
  const c = b as Segment<F> & { kind: "arc" };
  const between = subtract(c.centre, a.centre);
  const far = Math.hypot(between.x, between.y);
  if (far === 0) return [];
  const unit = { x: between.x / far, y: between.y / far };
  const middle = (far * far + a.radius * a.radius - c.radius * c.radius) / (2 * far);
  return halfChords(a.radius, middle).map((half) => ({
    x: a.centre.x + unit.x * middle - unit.y * half,
    y: a.centre.y + unit.y * middle + unit.x * half,
  }));
}

function halfChords(radius: number, off: number): readonly number[] {
  if (Math.abs(off) > radius) return [];
  const half = Math.sqrt(radius * radius - off * off);
  return [half, -half];
}

/** Pairs of points, one on each carrier, whose joining line is square to both. */
function square<F extends string>(a: Segment<F>, b: Segment<F>): (readonly [Point<F>, Point<F>])[] {
  if (a.kind === "line" && b.kind === "line") return [];
  if (a.kind === "line") return square(b, a).map(([second, first]) => [first, second] as const);
  const towards = b.kind === "arc" ? b.centre : footOn(b, a.centre);
  const out = subtract(towards, a.centre);
  const far = Math.hypot(out.x, out.y);
  if (far === 0) return [];
  const unit = { x: out.x / far, y: out.y / far };
  const at = (centre: Point<F>, reach: number): Point<F> => ({
    x: centre.x + unit.x * reach,
    y: centre.y + unit.y * reach,
  });
  const mine = [at(a.centre, a.radius), at(a.centre, -a.radius)];
  const theirs = b.kind === "line" ? [towards] : [at(b.centre, b.radius), at(b.centre, -b.radius)];
  return mine.flatMap((p) => theirs.map((q) => [p, q] as const));
}

function footOn<F extends string>(line: Segment<F>, p: Point<F>): Point<F> {
  const along = subtract(line.to, line.from);
  const length = dot(along, along);
  const t = length === 0 ? 0 : dot(subtract(p, line.from), along) / length;
  return { x: line.from.x + along.x * t, y: line.from.y + along.y * t };
}
