import {
  ARC_FITTING_MM,
  type Curve,
  cosine,
  FLATTENING_MM,
  fitArcs,
  type Loop,
  loopOf,
  type Path,
  type Point,
  pathOf,
  SAME_POINT_MM,
  type Segment,
  segments,
  sine,
} from "@dryfit/geometry";

/** x' = a·x + c·y + e, y' = b·x + d·y + f, as SVG's matrix(a b c d e f). */
export type Affine = readonly [number, number, number, number, number, number];

export const IDENTITY: Affine = [1, 0, 0, 1, 0, 0];

/** First `inner`, then `outer`. */
export function after(outer: Affine, inner: Affine): Affine {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

function moved([a, b, c, d, e, f]: Affine, { x, y }: Point): Point {
  return { x: a * x + c * y + e, y: b * x + d * y + f };
}

/**
 * A stroke of somebody's drawing, exact under any affine move: a line; an ellipse's arc, told by its centre and two
 * conjugate half-diameters; or any smooth curve of one parameter, with the places where it may bend sharply.
 */
export type Piece =
  | { readonly kind: "line"; readonly from: Point; readonly to: Point }
  | {
      readonly kind: "ellipse";
      readonly centre: Point;
      readonly u: Point;
      readonly v: Point;
      readonly from: number;
      readonly sweep: number;
    }
  | { readonly kind: "curve"; readonly at: (t: number) => Point; readonly knots: readonly number[] };

export function movedPiece(by: Affine, piece: Piece): Piece {
  switch (piece.kind) {
    case "line":
      return { ...piece, from: moved(by, piece.from), to: moved(by, piece.to) };
    case "ellipse": {
      const turn: Affine = [by[0], by[1], by[2], by[3], 0, 0];
      return { ...piece, centre: moved(by, piece.centre), u: moved(turn, piece.u), v: moved(turn, piece.v) };
    }
    case "curve":
      return { ...piece, at: (t) => moved(by, piece.at(t)) };
  }
}

/** The pieces that a curve of ours consists of. */
export function piecesOf(curve: Curve): readonly Piece[] {
  return segments(curve).map((s): Piece => {
    if (s.kind === "line") return { kind: "line", from: s.from, to: s.to };
    const u = { x: s.from.x - s.centre.x, y: s.from.y - s.centre.y };
    return { kind: "ellipse", centre: s.centre, u, v: { x: -u.y, y: u.x }, from: 0, sweep: s.sweep };
  });
}

/** Lines and true arcs for a piece whose numbers are mm; a whole ellipse gives a loop. Null where it has no length. */
export function curveOf(piece: Piece): Curve | null {
  if (piece.kind === "line") {
    const { from, to } = piece;
    return apart(from, to) ? pathOf([{ kind: "line", from, to }]) : null;
  }
  if (piece.kind === "ellipse") {
    const circle = asArcs(piece);
    if (circle) return circle;
  }
  const points =
    piece.kind === "ellipse" ? sampled(ellipseAt(piece), QUARTERS) : sampled(piece.at, piece.knots);
  const whole = fitArcs(points, ARC_FITTING_MM);
  if (whole.vertices.length < 2) return null;
  const [first, last] = [points[0]!, points.at(-1)!];
  const isRound = piece.kind === "ellipse" && Math.abs(Math.abs(piece.sweep) - 2 * Math.PI) < 1e-9;
  if (!isRound && apart(first, last)) return whole;
  return loopOf(segments(whole));
}

type Ellipse = Extract<Piece, { kind: "ellipse" }>;

/** A circle's arc stays one, cut into halves so that none is wider than half a turn. */
function asArcs({ centre, u, v, from, sweep }: Ellipse): Loop | Path | null {
  const radius = Math.hypot(u.x, u.y);
  const skew = u.x * v.x + u.y * v.y;
  if (radius < SAME_POINT_MM) return null;
  if (Math.abs(Math.hypot(v.x, v.y) - radius) > ROUND_MM || Math.abs(skew) > ROUND_MM * radius) return null;
  const sense = Math.sign(u.x * v.y - u.y * v.x);
  const at = ellipseAt({ kind: "ellipse", centre, u, v, from, sweep });
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI + 1e-9)));
  const list = Array.from({ length: count }, (_, i): Segment => {
    const [a, b] = [at(i / count), at((i + 1) / count)];
    return { kind: "arc", from: a, to: b, centre, radius, sweep: (sense * sweep) / count };
  });
  if (list.every((s) => !apart(s.from, s.to)) && Math.abs(sweep) < Math.PI) return null;
  const isWhole = Math.abs(Math.abs(sweep) - 2 * Math.PI) < 1e-9;
  return isWhole ? loopOf(list) : pathOf(list);
}

/** Half-diameters that differ by less are a circle's that was written with few digits, mm. */
const ROUND_MM = 0.001;

function ellipseAt({ centre, u, v, from, sweep }: Ellipse): (t: number) => Point {
  return (t) => {
    const angle = from + t * sweep;
    const [cos, sin] = [cosine(angle), sine(angle)];
    return { x: centre.x + u.x * cos + v.x * sin, y: centre.y + u.y * cos + v.y * sin };
  };
}

const QUARTERS = [0, 0.25, 0.5, 0.75, 1] as const;

/** Points so close that chords between them miss the curve by less than FLATTENING_MM. */
function sampled(at: (t: number) => Point, knots: readonly number[]): readonly Point[] {
  const points: Point[] = [at(knots[0]!)];
  const walk = (t0: number, p0: Point, t1: number, p1: Point, depth: number): void => {
    const middle = (t0 + t1) / 2;
    const p = at(middle);
    // Looked at in three places: the middle alone lies on the chord where a curve swings to both sides.
    const straight =
      depth >= LEAST_HALVINGS &&
      [at((t0 + middle) / 2), p, at((middle + t1) / 2)].every((q) => off(q, p0, p1) <= FLATTENING_MM / 2);
    if (straight || depth >= MOST_HALVINGS) {
      points.push(p1);
      return;
    }
    walk(t0, p0, middle, p, depth + 1);
    walk(middle, p, t1, p1, depth + 1);
  };
  for (const [i, t] of knots.slice(1).entries()) walk(knots[i]!, at(knots[i]!), t, at(t), 0);
  return points;
}

const LEAST_HALVINGS = 2;
const MOST_HALVINGS = 14;

/** From a chord, beyond its ends from the nearer one. */
function off(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length = Math.hypot(dx, dy);
  if (length === 0) return Math.hypot(p.x - a.x, p.y - a.y);
  const t = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / length ** 2));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

function apart(a: Point, b: Point): boolean {
  return Math.hypot(a.x - b.x, a.y - b.y) > SAME_POINT_MM;
}
