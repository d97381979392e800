import type { Loop, Region } from "@dryfit/geometry";
import { arccosine, arctangent, cosine, sine } from "@dryfit/geometry";

/** A closed polygon as x, y, x, y …; the first corner is not repeated. Outers counter-clockwise, holes clockwise. */
export type Ring = readonly number[];

/** An outer ring first, then its holes. */
export type Polygon = readonly Ring[];

/**
 * How far the nester's polygon may stand proud of a curved outline, mm. Polygons never cut into the true outline,
 * so spacing holds for the true arcs; this is the most wood that the approximation can waste per side.
 */
const PROUD_MM = 0.02;

/**
 * Lines and arcs to a polygon that holds the whole of the material on the loop's left.
 * Arcs that bulge out of the material become tangents, those that bulge into it become chords.
 */
export function ringOf(loop: Loop, proud: number = PROUD_MM): number[] {
  const ring: number[] = [];
  const n = loop.vertices.length;
  loop.vertices.forEach((from, i) => {
    ring.push(from.x, from.y);
    if (from.bulge === 0) return;
    const to = loop.vertices[(i + 1) % n]!;
    const sweep = 4 * arctangent(from.bulge, 1);
    const rise = (1 - from.bulge * from.bulge) / (4 * from.bulge);
    const cx = (from.x + to.x) / 2 - rise * (to.y - from.y);
    const cy = (from.y + to.y) / 2 + rise * (to.x - from.x);
    const radius = Math.hypot(from.x - cx, from.y - cy);
    const start = arctangent(from.y - cy, from.x - cx);
    const steps = Math.max(2, Math.ceil(Math.abs(sweep) / stepFor(radius, proud)));
    const step = sweep / steps;
    if (sweep > 0) {
      const reach = radius / cosine(step / 2);
      for (let k = 0; k < steps; k++) {
        const angle = start + (k + 0.5) * step;
        ring.push(cx + reach * cosine(angle), cy + reach * sine(angle));
      }
    } else {
      for (let k = 1; k < steps; k++) {
        const angle = start + k * step;
        ring.push(cx + radius * cosine(angle), cy + radius * sine(angle));
      }
    }
  });
  return tidy(ring);
}

/** The region with its arcs as `ringOf` makes them. */
export function polygonOf(region: Region, proud: number = PROUD_MM): Polygon {
  return [ringOf(region.outer, proud), ...region.holes.map((hole) => ringOf(hole, proud))];
}

export function ringArea(ring: Ring): number {
  let sum = 0;
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const j = (i + 2) % n;
    sum += ring[i]! * ring[j + 1]! - ring[j]! * ring[i + 1]!;
  }
  return sum / 2;
}

export function polygonArea(polygon: Polygon): number {
  return polygon.reduce((sum, ring) => sum + ringArea(ring), 0);
}

/** Least x, least y, most x, most y. */
export function ringBounds(ring: Ring): [number, number, number, number] {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < ring.length; i += 2) {
    x0 = Math.min(x0, ring[i]!);
    x1 = Math.max(x1, ring[i]!);
    y0 = Math.min(y0, ring[i + 1]!);
    y1 = Math.max(y1, ring[i + 1]!);
  }
  return [x0, y0, x1, y1];
}

/** Turned about the origin, counter-clockwise; exact for quarter turns. */
export function turnRing(ring: Ring, radians: number): number[] {
  const quarters = Math.round(radians / (Math.PI / 2));
  const rest = radians - quarters * (Math.PI / 2);
  const exact = Math.abs(rest) < 1e-12;
  const turn = ((quarters % 4) + 4) % 4;
  const cos = exact ? [1, 0, -1, 0][turn]! : cosine(radians);
  const sin = exact ? [0, 1, 0, -1][turn]! : sine(radians);
  const out = new Array<number>(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    out[i] = 0 + x * cos - y * sin;
    out[i + 1] = 0 + x * sin + y * cos;
  }
  return out;
}

/** Half a step's chord stands off the circle by `proud` at most; tangents by slightly more, hence the cosine form. */
function stepFor(radius: number, proud: number): number {
  return 2 * arccosine(radius / (radius + proud));
}

/** Without corners that repeat the one before. */
function tidy(ring: number[]): number[] {
  const out: number[] = [];
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const j = (i + 2) % n;
    if (Math.hypot(ring[j]! - ring[i]!, ring[j + 1]! - ring[i + 1]!) > 1e-9) out.push(ring[i]!, ring[i + 1]!);
  }
  return out;
}
