import {
  type Arc,
  arctangent,
  type Curve,
  cross,
  distance,
  dot,
  type Loop,
  loopOf,
  type Point,
  type Segment,
  segments,
  subtract,
  tangentOf,
} from "@dryfit/geometry";

/** A corner of an outline to be drawn round; `radius` 0 leaves it sharp. */
export interface Corner<F extends string = "panel"> extends Point<F> {
  readonly bulge: number;
  readonly radius: number;
}

export function corner(x: number, y: number, radius = 0): Corner {
  return { x, y, bulge: 0, radius };
}

/**
 * The loop through these corners, each rounded with its own radius: an arc tangent to both neighbours,
 * whether they are lines or arcs.
 *
 * Errors: RangeError where a radius does not fit between the neighbours.
 */
export function rounded<F extends string>(corners: readonly Corner<F>[]): Loop<F> {
  const kept = corners.filter((c, i) => distance(c, corners[(i + 1) % corners.length]!) > 1e-9);
  const sides = segments<F>({ closed: true, vertices: kept } as Curve<F>);
  if (sides.length !== kept.length) throw new RangeError("two corners of an outline stand on one place");
  const fillets = kept.map((c, i) =>
    c.radius > 0 ? fillet(sides[(i + sides.length - 1) % sides.length]!, sides[i]!, c.radius) : null,
  );
  const list: Segment<F>[] = [];
  sides.forEach((side, i) => {
    const before = fillets[i];
    const after = fillets[(i + 1) % sides.length];
    if (before) list.push(before);
    list.push(between(side, before?.to ?? side.from, after?.from ?? side.to));
  });
  return loopOf(list.filter((s) => distance(s.from, s.to) > 1e-9));
}

/** How long a straight side must be for a corner of this radius between lines that turn by `turn`. */
export function tangentLength(radius: number, turn: number): number {
  return radius * tangentOf(Math.abs(turn) / 2);
}

function fillet<F extends string>(before: Segment<F>, after: Segment<F>, radius: number): Arc<F> | null {
  const turn = cross(directionAt(before, "end"), directionAt(after, "start"));
  if (Math.abs(turn) < 1e-9) return null;
  const side = Math.sign(turn);
  const centres = meetings(beside(before, side * radius), beside(after, side * radius));
  const centre = centres.sort((a, b) => distance(a, after.from) - distance(b, after.from))[0];
  if (centre === undefined) throw new RangeError(`a corner of radius ${radius} finds no centre`);
  const [from, to] = [foot(before, centre), foot(after, centre)];
  const [a, b] = [subtract(from, centre), subtract(to, centre)];
  return { kind: "arc", from, to, centre, radius, sweep: arctangent(cross(a, b), dot(a, b)) };
}

/** The line or circle a distance to the left of a segment. */
type Support<F extends string> =
  | { readonly kind: "line"; readonly at: Point<F>; readonly way: Point<F> }
  | { readonly kind: "circle"; readonly centre: Point<F>; readonly radius: number };

function beside<F extends string>(s: Segment<F>, left: number): Support<F> {
  if (s.kind === "arc") {
    return { kind: "circle", centre: s.centre, radius: s.radius - Math.sign(s.sweep) * left };
  }
  const way = directionAt(s, "start");
  return { kind: "line", at: { x: s.from.x - way.y * left, y: s.from.y + way.x * left }, way };
}

function meetings<F extends string>(a: Support<F>, b: Support<F>): Point<F>[] {
  if (a.kind === "line" && b.kind === "line") {
    const t = cross(subtract(b.at, a.at), b.way) / cross(a.way, b.way);
    return [{ x: a.at.x + t * a.way.x, y: a.at.y + t * a.way.y }];
  }
  if (a.kind === "circle" && b.kind === "line") return meetings(b, a);
  if (a.kind === "line" && b.kind === "circle") {
    const t = dot(subtract(b.centre, a.at), a.way);
    const foot = { x: a.at.x + t * a.way.x, y: a.at.y + t * a.way.y };
    return bothWays(foot, a.way, b.radius ** 2 - distance(foot, b.centre) ** 2);
  }
  if (a.kind === "circle" && b.kind === "circle") {
    const gap = distance(a.centre, b.centre);
    const way = { x: (b.centre.x - a.centre.x) / gap, y: (b.centre.y - a.centre.y) / gap };
    const t = (gap * gap + a.radius ** 2 - b.radius ** 2) / (2 * gap);
    const foot = { x: a.centre.x + t * way.x, y: a.centre.y + t * way.y };
    return bothWays(foot, { x: -way.y, y: way.x }, a.radius ** 2 - t * t);
  }
  return [];
}

function bothWays<F extends string>(foot: Point<F>, way: Point<F>, square: number): Point<F>[] {
  if (square < 0) return [];
  const reach = Math.sqrt(square);
  return [reach, -reach].map((s) => ({ x: foot.x + s * way.x, y: foot.y + s * way.y }));
}

/** Where a circle about `centre` touches the segment; outside it, the radius does not fit. */
function foot<F extends string>(s: Segment<F>, centre: Point<F>): Point<F> {
  if (s.kind === "line") {
    const way = directionAt(s, "start");
    const t = dot(subtract(centre, s.from), way);
    if (t < -1e-9 || t > distance(s.from, s.to) + 1e-9) throw tooWide();
    return { x: s.from.x + t * way.x, y: s.from.y + t * way.y };
  }
  const gap = distance(centre, s.centre);
  // A fillet inside a bowl touches beyond its own centre, one outside a hump before it.
  const touch = {
    x: s.centre.x + ((centre.x - s.centre.x) * s.radius) / gap,
    y: s.centre.y + ((centre.y - s.centre.y) * s.radius) / gap,
  };
  const turned = turnBetween(subtract(s.from, s.centre), subtract(touch, s.centre)) * Math.sign(s.sweep);
  if (turned < -1e-9 || turned > Math.abs(s.sweep) + 1e-9) throw tooWide();
  return touch;
}

function between<F extends string>(s: Segment<F>, from: Point<F>, to: Point<F>): Segment<F> {
  if (s.kind === "line") {
    if (dot(subtract(to, from), directionAt(s, "start")) < -1e-9) throw tooWide();
    return { kind: "line", from, to };
  }
  const sweep = turnBetween(subtract(from, s.centre), subtract(to, s.centre));
  if (sweep * Math.sign(s.sweep) < -1e-9) throw tooWide();
  return { ...s, from, to, sweep };
}

function directionAt<F extends string>(s: Segment<F>, end: "start" | "end"): Point<F> {
  if (s.kind === "line") {
    const length = distance(s.from, s.to);
    return { x: (s.to.x - s.from.x) / length, y: (s.to.y - s.from.y) / length };
  }
  const p = end === "start" ? s.from : s.to;
  const sense = Math.sign(s.sweep) / s.radius;
  return { x: -(p.y - s.centre.y) * sense, y: (p.x - s.centre.x) * sense };
}

function turnBetween<F extends string>(a: Point<F>, b: Point<F>): number {
  return arctangent(cross(a, b), dot(a, b));
}

function tooWide(): RangeError {
  return new RangeError("a round corner is wider than the sides it joins");
}
