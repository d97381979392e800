import { describe, expect, test } from "vitest";
import { bent } from "../src/elastica.ts";
import { ellipticE, ellipticF } from "../src/elliptic.ts";
import {
  ARC_FITTING_MM,
  battenRests,
  distance,
  distanceTo,
  elasticaThrough,
  lengthOf,
  nearest,
  type Path,
  type Point,
  placeCurve,
  placement,
  pointAt,
  reversed,
  segments,
  tangentAt,
} from "../src/index.ts";
import fc from "./seeded.ts";

const rad = (deg: number): number => (deg * Math.PI) / 180;
/** The parameter for a strip that meets the line of thrust at this angle. */
const parameter = (alpha: number): number => Math.sin(rad(alpha) / 2) ** 2;

describe("elliptic integrals", () => {
  test("are angles where the parameter is 0, and add up past a quarter turn", () => {
    expect(ellipticF(1.234, 0)).toBeCloseTo(1.234, 14);
    expect(ellipticE(-0.7, 0)).toBeCloseTo(-0.7, 14);
    expect(ellipticF(Math.PI + 0.4, 0.6)).toBeCloseTo(
      2 * ellipticF(Math.PI / 2, 0.6) + ellipticF(0.4, 0.6),
      12,
    );
    expect(ellipticE(Math.PI + 0.4, 0.6)).toBeCloseTo(
      2 * ellipticE(Math.PI / 2, 0.6) + ellipticE(0.4, 0.6),
      12,
    );
  });
  // Legendre's relation, a check on both: E K' + E' K − K K' = π / 2.
  test.each([0.1, 0.5, 0.83])("keep Legendre's relation at m = %s", (m) => {
    const [k, e] = [ellipticF(Math.PI / 2, m), ellipticE(Math.PI / 2, m)];
    const [k1, e1] = [ellipticF(Math.PI / 2, 1 - m), ellipticE(Math.PI / 2, 1 - m)];
    expect(e * k1 + e1 * k - k * k1).toBeCloseTo(Math.PI / 2, 13);
  });
});

describe("a strip bent by end forces", () => {
  // Timoshenko and Gere, Theory of Elastic Stability, 2.7, published to three figures; recomputed.
  test.each([
    [20, 1.0154, 0.9697, 0.2194],
    [40, 1.0637, 0.8812, 0.4222],
    [60, 1.1517, 0.741, 0.5932],
    [80, 1.2939, 0.5594, 0.7195],
    [100, 1.5184, 0.349, 0.7915],
    [120, 1.8848, 0.1232, 0.8032],
  ])("as a column leaning %s° at its tip", (alpha, load, height, sideways) => {
    const foot = bent(Math.PI / 2, parameter(alpha));
    expect((2 * foot.s) ** 2 / Math.PI ** 2).toBeCloseTo(load, 4);
    expect(foot.x / foot.s).toBeCloseTo(height, 4);
    expect(foot.y / foot.s).toBeCloseTo(sideways, 4);
  });
  // Derived: span / L = 2 E / K − 1 (paper on pinned elastic curves), mid height / L = p / K.
  test.each([
    [20, 0.969731, 0.109707],
    [30, 0.932432, 0.16195],
    [60, 0.74102, 0.296604],
  ])("pinned at both ends, leaving its chord at %s°", (alpha, span, height) => {
    const [middle, end] = [bent(Math.PI / 2, parameter(alpha)), bent(Math.PI, parameter(alpha))];
    expect(end.x / end.s).toBeCloseTo(span, 6);
    expect(middle.y / end.s).toBeCloseTo(height, 6);
  });
  // Euler's constants of the rectangular elastica: A = 1.3110287771, B = 0.5990701174, A B = π / 4.
  test("square to its thrust, it is the rectangular elastica", () => {
    const middle = bent(Math.PI / 2, 0.5);
    expect(middle.s / Math.SQRT2).toBeCloseTo(1.3110287771, 10);
    expect(middle.x / Math.SQRT2).toBeCloseTo(0.5990701174, 10);
    expect((middle.s * middle.x) / 2).toBeCloseTo(Math.PI / 4, 12);
  });
  // Derived; B. K. P. Horn, The curve of least energy, 1983: between upright ends a span of 2 apart.
  test("upright at both ends, its energy is 8 B², its height 1 / B, its length 2 A / B", () => {
    const [middle, end] = [bent(Math.PI / 2, 0.5), bent(Math.PI, 0.5)];
    // Its span lies along the thrust here; scaled to 2.
    const unit = 2 / end.x;
    expect(middle.y * unit).toBeCloseTo(1.669254, 6);
    expect(end.s * unit).toBeCloseTo(4.376879, 6);
    const steps = 2000;
    let energy = 0;
    for (let i = 0; i < steps; i++) {
      const [a, b, mid] = [i, i + 1, i + 0.5].map((n) => bent((Math.PI * n) / steps, 0.5));
      energy += (mid!.curvature ** 2 * (b!.s - a!.s)) / unit;
    }
    expect(energy).toBeCloseTo(2.87108, 5);
  });
});

const at = (x: number, y: number): Point => ({ x, y });

function heightAt(path: Path, x: number): number {
  let [low, high] = [0, lengthOf(path)];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (pointAt(path, middle).x < x) low = middle;
    else high = middle;
  }
  return pointAt(path, low).y;
}

describe("a batten over three nails", () => {
  // Derived: the natural cubic spline through (0, 0), (1, 1), (2, 0) has 0.6875 at 0.5 and slope 1.5 at its end.
  test("nearly straight, it is the natural cubic spline", () => {
    const path = elasticaThrough(at(0, 0), at(100, 1), at(200, 0));
    expect(heightAt(path, 50)).toBeCloseTo(0.6875, 2);
    const start = tangentAt(path, 0);
    expect(start.y / start.x).toBeCloseTo(0.015, 4);
  });
  test("nails at uneven distances, too", () => {
    // Derived: M = −6 (s1 − s2) / (2 (h1 + h2)), y at a span's middle = mean of its ends − M h² / 16.
    const [h1, h2] = [80, 220];
    const path = elasticaThrough(at(0, 0), at(h1, 2), at(h1 + h2, 1));
    const moment = (-6 * (2 / h1 - -1 / h2)) / (2 * (h1 + h2));
    expect(heightAt(path, h1 / 2)).toBeCloseTo(1 - (moment * h1 * h1) / 16, 2);
    expect(heightAt(path, h1 + h2 / 2)).toBeCloseTo(1.5 - (moment * h2 * h2) / 16, 2);
  });
  test("in line, it is straight", () =>
    expect(segments(elasticaThrough(at(0, 0), at(30, 10), at(90, 30))).map((s) => s.kind)).toEqual(["line"]));
  test("passes the nails, bends one way, and runs smoothly on", () => {
    const [a, b, c] = [at(0, 46), at(150, 100), at(336, 122)];
    const path = elasticaThrough(a, b, c);
    expect(distance(path.vertices[0]!, a)).toBe(0);
    expect(distanceTo(path, b)).toBeLessThan(1e-9);
    expect(distance(path.vertices.at(-1)!, c)).toBe(0);
    const sides = segments(path);
    expect(sides.every((s) => s.kind === "arc" && s.sweep < 0)).toBe(true);
    let along = 0;
    for (const s of sides.slice(0, -1)) {
      along += s.kind === "arc" ? s.radius * Math.abs(s.sweep) : 0;
      expect(distance(tangentAt(path, along - 1e-7), tangentAt(path, along + 1e-7))).toBeLessThan(1e-6);
    }
  });
  test("keeps within the arc-fitting tolerance of the strip itself", () => {
    // Each span is the rectangular elastica from its inflection: found again by its chord and its end.
    const [a, b] = [at(0, 0), at(100, 60)];
    const path = elasticaThrough(a, b, at(200, 0));
    const end = symmetricPin(60 / 100);
    const unit = distance(a, b) / Math.hypot(end.x, end.y);
    const chord = Math.atan2(b.y, b.x);
    for (let i = 1; i < 200; i++) {
      const p = bent((end.phi * i) / 200, 0.5);
      const angle = chord - Math.atan2(end.y, end.x) + Math.atan2(p.y, p.x);
      const r = Math.hypot(p.x, p.y) * unit;
      expect(distanceTo(path, at(r * Math.cos(angle), r * Math.sin(angle)))).toBeLessThan(ARC_FITTING_MM);
    }
  });
  test("turned, flipped or run backwards, it is the same", () => {
    const nails = [at(0, 46), at(150, 100), at(336, 122)] as const;
    const path = elasticaThrough(...nails);
    const back = reversed(elasticaThrough(nails[2], nails[1], nails[0]));
    const to = placement({ x: 7, y: 9 }, { flip: true, quarters: 1 });
    const moved = placeCurve(placement({ x: 0, y: 0 }), path);
    for (let s = 0; s < 340; s += 20) {
      expect(nearest(back, pointAt(moved, s)).distance).toBeLessThan(1e-6);
    }
    expect(lengthOf(placeCurve(to, path))).toBeCloseTo(lengthOf(path), 9);
  });
  test("bends less than any other smooth curve near it", () => {
    const [a, b, c] = [at(0, 0), at(120, 70), at(300, 0)];
    const samples = sampled(elasticaThrough(a, b, c), 600);
    const least = energyOf(samples);
    const pinAt = samples.reduce(
      (best, p, i) => (distance(p, b) < distance(samples[best]!, b) ? i : best),
      0,
    );
    for (const [k, size] of [
      [1, 0.4],
      [1, -0.4],
      [2, 0.4],
      [2, -0.4],
      [3, 0.2],
    ] as const) {
      // A ripple that leaves all three nails where they are.
      const rippled = samples.map((p, i) => {
        const share = i <= pinAt ? i / pinAt : 1 + (i - pinAt) / (samples.length - 1 - pinAt);
        return at(p.x, p.y + size * Math.sin(k * Math.PI * share));
      });
      expect(energyOf(rippled)).toBeGreaterThan(least);
    }
  });
  test("bent too sharply, it slips off, and says so", () => {
    expect(battenRests(at(0, 0), at(20, 60), at(200, 0))).toBe(false);
    expect(() => elasticaThrough(at(0, 0), at(20, 60), at(200, 0))).toThrow(RangeError);
    expect(battenRests(at(0, 0), at(100, 100), at(200, 0))).toBe(true);
  });
  test("over any three nails it rests on, it passes them and bends one way only", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 300 }),
        fc.integer({ min: 40, max: 300 }),
        fc.integer({ min: -60, max: 60 }),
        fc.integer({ min: -60, max: 60 }),
        (w1, w2, rise, fall) => {
          const nails = [at(0, 0), at(w1, rise), at(w1 + w2, fall)] as const;
          fc.pre(battenRests(...nails));
          const path = elasticaThrough(...nails);
          expect(path.vertices.some((v) => distance(v, nails[1]) === 0)).toBe(true);
          const bends = new Set(
            segments(path).flatMap((s) => (s.kind === "arc" ? [Math.sign(s.sweep)] : [])),
          );
          expect(bends.size).toBeLessThanOrEqual(1);
          expect(segments(path).length).toBeLessThan(80);
        },
      ),
      { numRuns: 60 },
    ));
});

/** Where on the rectangular elastica the middle nail sits when the spans are alike and rise by `slope`. */
function symmetricPin(slope: number): { phi: number; x: number; y: number } {
  let [low, high] = [0, Math.PI];
  for (let i = 0; i < 80; i++) {
    const phi = (low + high) / 2;
    const { x, y, angle } = bent(phi, 0.5);
    // At the top the strip runs level, so it leans on its chord by the chord's own angle.
    if (Math.atan2(y, x) - angle < Math.atan(slope)) low = phi;
    else high = phi;
  }
  return { phi: low, ...bent(low, 0.5) };
}

function sampled(path: Path, count: number): Point[] {
  const total = lengthOf(path);
  return Array.from({ length: count + 1 }, (_, i) => pointAt(path, (total * i) / count));
}

/** ∫ κ² ds over a fine polyline: turn² / length at each corner. */
function energyOf(points: readonly Point[]): number {
  let energy = 0;
  for (let i = 1; i < points.length - 1; i++) {
    const [p, q, r] = [points[i - 1]!, points[i]!, points[i + 1]!];
    const [ux, uy, vx, vy] = [q.x - p.x, q.y - p.y, r.x - q.x, r.y - q.y];
    const turn = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    energy += turn ** 2 / ((distance(p, q) + distance(q, r)) / 2);
  }
  return energy;
}
