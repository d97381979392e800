import type { Path } from "./curve.ts";
import { ellipticE, ellipticF } from "./elliptic.ts";
import { fitArcs } from "./fit.ts";
import { distance, type Point, point } from "./point.ts";
import { polyline } from "./shapes.ts";

/** A state of a bent strip, in units of 1/√(load / stiffness), from an inflection on the line of thrust. */
export interface StripPoint {
  /** Along the strip. */
  readonly s: number;
  /** Along and off the line of thrust. */
  readonly x: number;
  readonly y: number;
  /** Angle turned since the inflection, and curvature. */
  readonly turn: number;
  readonly curvature: number;
}

/**
 * A strip bent by end forces alone, at `phi` from its inflection (π/2 is its middle, π the next inflection).
 *
 * `m` = sin²(α/2) for a strip that meets the line of thrust at the angle α. Solves θ″ + sin θ = 0.
 * Source: Timoshenko and Gere, Theory of Elastic Stability, 2.7.
 */
export function strip(phi: number, m: number): StripPoint {
  const k = Math.sqrt(m);
  const rest = Math.PI / 2 - phi;
  const s = ellipticF(Math.PI / 2, m) - ellipticF(rest, m);
  return {
    s,
    x: 2 * (ellipticE(Math.PI / 2, m) - ellipticE(rest, m)) - s,
    y: 2 * k * Math.sin(phi),
    turn: 2 * Math.asin(k) - 2 * Math.asin(k * Math.cos(phi)),
    curvature: 2 * k * Math.sin(phi),
  };
}

/** A batten that may slide carries no thrust along it at its free ends: it leaves the line of thrust square. */
const FREE = 0.5;

/**
 * The curve of a thin strip bent through three points, as arcs.
 *
 * The strip is held between frictionless pins and free to slide: its ends carry no moment and no pull, its
 * length is whatever bends least. Of all curves through the three points, near the straight ones, it has the
 * least bending energy ∫κ² ds; each span is a piece of the rectangular elastica that starts at an inflection
 * on the outer point, and the two agree in direction and curvature at the middle one. For small slopes it is
 * the natural cubic spline.
 *
 * Errors: RangeError where the points are so far from a line that no free strip rests on them.
 */
export function elasticaThrough<F extends string>(
  a: Point<F>,
  b: Point<NoInfer<F>>,
  c: Point<NoInfer<F>>,
): Path<F> {
  const [first, second] = spans(a, b, c);
  if (first === undefined || second === undefined) return polyline([a, c]);
  const there = sample(first, a, b);
  const back = sample(second, c, b).reverse();
  const [left, right] = [fitArcs<F>(there, 0.002), fitArcs<F>(back, 0.002)];
  return { closed: false, vertices: [...left.vertices.slice(0, -1), ...right.vertices] };
}

interface Span {
  /** Where on the strip the middle pin is. */
  readonly phi: number;
  /** mm per unit of the strip. */
  readonly unit: number;
  /** 1 where the strip turns left from its outer end. */
  readonly sense: 1 | -1;
}

function spans(a: Point, b: Point, c: Point): [Span, Span] | [] {
  const [l1, l2] = [distance(a, b), distance(b, c)];
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, c.x - b.x, c.y - b.y];
  const bend = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
  if (Math.abs(bend) < 1e-9) return [];
  const sense = bend > 0 ? 1 : -1;
  const turn = Math.abs(bend);
  const top = steepest();
  const most = gain(top);
  let [low, high] = [Math.max(0, turn - most), Math.min(turn, most)];
  if (low > high) {
    throw new RangeError(`a free strip does not rest on pins that turn it by ${turn.toFixed(3)} rad`);
  }
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    const [p1, p2] = [phiOf(middle, top), phiOf(turn - middle, top)];
    if (bentness(p1) / l1 < bentness(p2) / l2) low = middle;
    else high = middle;
  }
  const share = (low + high) / 2;
  const [p1, p2] = [phiOf(share, top), phiOf(turn - share, top)];
  return [
    { phi: p1, unit: l1 / chordOf(p1), sense },
    { phi: p2, unit: l2 / chordOf(p2), sense: sense === 1 ? -1 : 1 },
  ];
}

function chordOf(phi: number): number {
  const { x, y } = strip(phi, FREE);
  return Math.hypot(x, y);
}

/** Curvature at the pin times the span's chord. */
function bentness(phi: number): number {
  return chordOf(phi) * strip(phi, FREE).curvature;
}

/** Angle from the span's chord to the strip at the pin. */
function gain(phi: number): number {
  const { x, y, turn } = strip(phi, FREE);
  return phi === 0 ? 0 : Math.atan2(y, x) - (2 * Math.asin(Math.sqrt(FREE)) - turn);
}

function phiOf(angle: number, top: number): number {
  let [low, high] = [0, top];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (gain(middle) < angle) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Where a span bends its pin hardest; beyond it the strip would snap through. */
function steepest(): number {
  let [low, high] = [0, Math.PI];
  for (let i = 0; i < 100; i++) {
    const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
    if (bentness(p) < bentness(q)) low = p;
    else high = q;
  }
  return (low + high) / 2;
}

function sample<F extends string>(span: Span, outer: Point<F>, inner: Point<F>): Point<F>[] {
  const end = strip(span.phi, FREE);
  const chord = Math.atan2(inner.y - outer.y, inner.x - outer.x);
  const own = Math.atan2(end.y, end.x);
  // The strip bends away from the line of thrust on the side that y counts, so its own curve turns right.
  const n = 2000;
  return Array.from({ length: n + 1 }, (_, i) => {
    if (i === 0) return outer;
    if (i === n) return inner;
    const p = strip((span.phi * i) / n, FREE);
    const angle = Math.atan2(p.y, p.x) - own;
    const r = Math.hypot(p.x, p.y) * span.unit;
    const turned = chord - span.sense * angle;
    return point<F>(outer.x + r * Math.cos(turned), outer.y + r * Math.sin(turned));
  });
}
