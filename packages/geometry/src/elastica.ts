import { arcsine, arctangent } from "./arctangent.ts";
import { fitBiarcs, type SmoothCurve } from "./biarc.ts";
import type { Path } from "./curve.ts";
import { ellipticE, ellipticF } from "./elliptic.ts";
import { cross, dot, type Point, subtract } from "./point.ts";
import { rootBetween } from "./root.ts";
import { polyline } from "./shapes.ts";
import { cosine, sine } from "./sine.ts";
import { SAME_ANGLE } from "./tolerance.ts";

/**
 * The curve of a thin strip, a maker's batten, bent through three points, as arcs.
 *
 * The strip rests on three frictionless pins, crossing each, and is free to slide: its ends carry no moment
 * and no pull, and its length is whatever bends least. So among curves near it through the three points it
 * has the least bending energy ∫κ² ds. Each span is a piece of the rectangular elastica with its inflection
 * on the outer pin; at the middle pin the spans agree in direction and curvature, and the pin pushes square
 * to the strip. For small slopes it is the natural cubic spline.
 *
 * Shape: passes through `b` exactly; within ARC_FITTING_MM of the strip; arcs share their tangents.
 * Errors: RangeError where no strip rests on the pins; ask `battenRests` first.
 */
export function elasticaThrough<F extends string>(
  a: Point<F>,
  b: Point<NoInfer<F>>,
  c: Point<NoInfer<F>>,
): Path<F> {
  const spans = spansOver(a, b, c);
  if (spans === "straight") return polyline<F>([a, c]);
  if (spans === "slips") {
    throw new RangeError(`a strip bent over (${a.x}, ${a.y}), (${b.x}, ${b.y}), (${c.x}, ${c.y}) slips off`);
  }
  const there = fitBiarcs(onSpan<F>(spans.first, a, b));
  const back = fitBiarcs(backwards(onSpan<F>(spans.second, c, b)));
  return { closed: false, vertices: [...there.vertices.slice(0, -1), ...back.vertices] };
}

/** Whether a free strip comes to rest on three pins, or is bent so sharply that it slides off. */
export function battenRests<F extends string>(
  a: Point<F>,
  b: Point<NoInfer<F>>,
  c: Point<NoInfer<F>>,
): boolean {
  return spansOver(a, b, c) !== "slips";
}

/** A strip bent by end forces alone, in units of √(stiffness / force), seen from an inflection. */
export interface Bent {
  /** Along the strip. */
  readonly s: number;
  /** Along the line of thrust, and off it. */
  readonly x: number;
  readonly y: number;
  /** The strip's angle to the line of thrust, and how fast it falls. */
  readonly angle: number;
  readonly curvature: number;
}

/**
 * The strip at `phi` from its inflection: 0 there, π/2 at its middle, π at the next inflection.
 *
 * `m` = sin²(α / 2) for a strip that leaves the line of thrust at the angle α. Solves θ″ + sin θ = 0.
 * Source: S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 2.7, with sin(θ / 2) = √m cos φ.
 */
export function bent(phi: number, m: number): Bent {
  const k = Math.sqrt(m);
  const rest = Math.PI / 2 - phi;
  const whole = m === FREE ? FREE_WHOLE : wholeOf(m);
  const s = whole.f - ellipticF(rest, m);
  const x = 2 * (whole.e - ellipticE(rest, m)) - s;
  const y = 2 * k * sine(phi);
  return { s, x, y, angle: 2 * arcsine(k * cosine(phi)), curvature: y };
}

/** No pull at a free end: it leaves the line of thrust square, α = 90°. */
const FREE = 0.5;
const FREE_WHOLE: Whole = wholeOf(FREE);

/** The complete integrals, from an inflection to the strip's middle. */
interface Whole {
  readonly f: number;
  readonly e: number;
}

function wholeOf(m: number): Whole {
  return { f: ellipticF(Math.PI / 2, m), e: ellipticE(Math.PI / 2, m) };
}

interface Span {
  /** Where on the strip the middle pin is. */
  readonly phi: number;
  /** 1 where the strip turns left on its way from the outer pin. */
  readonly sense: 1 | -1;
}

/**
 * The two spans' shapes. Each outer pin being an inflection, a span's shape hangs on one number; two
 * conditions at the middle pin, one direction and one curvature, leave one unknown: how much of the turn
 * between the chords the first span takes.
 */
function spansOver(a: Point, b: Point, c: Point): { first: Span; second: Span } | "straight" | "slips" {
  const [there, on] = [subtract(b, a), subtract(c, b)];
  const turn = arctangent(cross(there, on), dot(there, on));
  const total = Math.abs(turn);
  if (total <= SAME_ANGLE) return "straight";
  const most = lean(SHARPEST);
  const [low, high] = [Math.max(0, total - most), Math.min(total, most)];
  const mismatch = (share: number): number =>
    pinch(phiFor(share)) * Math.hypot(on.x, on.y) -
    pinch(phiFor(total - share)) * Math.hypot(there.x, there.y);
  if (low > high || mismatch(low) > 0 || mismatch(high) < 0) return "slips";
  const share = rootBetween(mismatch, low, high);
  return {
    first: { phi: phiFor(share), sense: turn > 0 ? 1 : -1 },
    second: { phi: phiFor(total - share), sense: turn > 0 ? -1 : 1 },
  };
}

/** From a span's chord to the strip at the middle pin, radians. Rises with `phi`. */
function lean(phi: number): number {
  if (phi === 0) return 0;
  const { x, y, angle } = bent(phi, FREE);
  return arctangent(y, x) - angle;
}

/** Curvature at the middle pin, times the span's chord. Rises with `phi` up to SHARPEST. */
function pinch(phi: number): number {
  const { x, y, curvature } = bent(phi, FREE);
  return Math.hypot(x, y) * curvature;
}

function phiFor(leaning: number): number {
  if (leaning <= 0) return 0;
  return leaning >= lean(SHARPEST) ? SHARPEST : rootBetween((phi) => lean(phi) - leaning, 0, SHARPEST);
}

/** Where a span bends hardest over its pin, d((x² + y²) y²) / dφ = 0; beyond, the strip slides off. */
const SHARPEST: number = rootBetween(
  (phi) => {
    const { x, y } = bent(phi, FREE);
    const perPhi = {
      x: sine(phi) ** 2 / Math.sqrt(1 - FREE * cosine(phi) ** 2),
      y: Math.SQRT2 * cosine(phi),
    };
    return x * perPhi.x * y + (x * x + 2 * y * y) * perPhi.y;
  },
  Math.PI / 2,
  Math.PI,
);

/** The strip from an outer pin (u = 0) to the middle one (u = 1). */
function onSpan<F extends string>({ phi, sense }: Span, outer: Point<F>, inner: Point<F>): SmoothCurve<F> {
  // Falling away from its first direction a strip turns right; mirrored, left.
  const end = bent(phi, FREE);
  const toPin = { x: end.x, y: -sense * end.y };
  const chord = subtract<F>(inner, outer);
  const size = dot(toPin, toPin);
  const [cos, sin] = [dot(chord, toPin) / size, cross(toPin, chord) / size];
  const unit = Math.hypot(cos, sin);
  const turned = (x: number, y: number): Point<F> => ({ x: x * cos - y * sin, y: x * sin + y * cos });
  return (u) => {
    const here = bent(phi * u, FREE);
    const off = turned(here.x, -sense * here.y);
    return {
      point: u === 1 ? inner : { x: outer.x + off.x, y: outer.y + off.y },
      direction: turned(cosine(here.angle) / unit, (-sense * sine(here.angle)) / unit),
      curvature: (sense * here.curvature) / unit,
    };
  };
}

/** The same curve run the other way. */
function backwards<F extends string>(curve: SmoothCurve<F>): SmoothCurve<F> {
  return (u) => {
    const { point, direction, curvature } = curve(1 - u);
    return { point, direction: { x: -direction.x, y: -direction.y }, curvature: -curvature };
  };
}
