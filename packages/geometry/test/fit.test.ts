import { describe, expect, test } from "vitest";
import {
  arcThrough,
  biarc,
  circle,
  distance,
  distanceTo,
  fitArcs,
  fitBiarcs,
  flatten,
  lengthOf,
  type Path,
  type Point,
  pointAt,
  roundedRectangle,
  type SmoothCurve,
  segments,
  tangentAt,
} from "../src/index.ts";
import fc from "./seeded.ts";

const arcs = (path: Path): { radius: number; sweep: number }[] =>
  segments(path).flatMap((s) => (s.kind === "arc" ? [{ radius: s.radius, sweep: s.sweep }] : []));

describe("an arc through three points", () => {
  test("is the circle's, on the middle point's side", () => {
    const [left, right] = [
      { x: -5, y: 0 },
      { x: 5, y: 0 },
    ];
    expect(arcs(arcThrough(left, { x: 0, y: 5 }, right))[0]).toMatchObject({ radius: 5, sweep: -Math.PI });
    expect(arcs(arcThrough(left, { x: 0, y: -5 }, right))[0]).toMatchObject({ radius: 5, sweep: Math.PI });
  });
  test("of more than half a turn comes in two", () => {
    const path = arcThrough({ x: 3, y: -4 }, { x: 0, y: 5 }, { x: -3, y: -4 });
    expect(arcs(path)).toHaveLength(2);
    expect(lengthOf(path)).toBeCloseTo(5 * (2 * Math.PI - 2 * Math.atan2(3, 4)), 9);
  });
  test("in line is a line; without ends it is refused", () => {
    expect(segments(arcThrough({ x: 0, y: 0 }, { x: 5, y: 5 }, { x: 9, y: 9 })).map((s) => s.kind)).toEqual([
      "line",
    ]);
    expect(() => arcThrough({ x: 0, y: 0 }, { x: 5, y: 5 }, { x: 0, y: 0 })).toThrow(RangeError);
  });
});

describe("a biarc", () => {
  // Derived from the equal-tangent formula; a 2014 article's worked pair.
  test("between level tangents is two arcs that turn against each other", () => {
    const path = biarc({ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 10, y: 10 }, { x: 1, y: 0 });
    expect(path.vertices[1]!.x).toBeCloseTo(5, 9);
    expect(path.vertices[1]!.y).toBeCloseTo(5, 9);
    const [first, second] = arcs(path);
    expect(first!.radius).toBeCloseTo(5, 9);
    expect(second!.radius).toBeCloseTo(5, 9);
    expect(Math.sign(first!.sweep)).toBe(-Math.sign(second!.sweep));
  });
  test("up and down again is half a circle", () => {
    const path = biarc({ x: 0, y: 0 }, { x: 0, y: 1 }, { x: 10, y: 0 }, { x: 0, y: -1 });
    expect(path.vertices[1]!.x).toBeCloseTo(5, 9);
    expect(path.vertices[1]!.y).toBeCloseTo(5, 9);
    for (const { radius } of arcs(path)) expect(radius).toBeCloseTo(5, 9);
  });
  test("with tangents square to its chord is two half turns", () =>
    expect(
      arcs(biarc({ x: 0, y: 0 }, { x: 0, y: 1 }, { x: 10, y: 0 }, { x: 0, y: 1 })).map((a) => a.radius),
    ).toEqual([2.5, 2.5]));
  test("along a line stays one", () =>
    expect(arcs(biarc({ x: 0, y: 0 }, { x: 2, y: 0 }, { x: 10, y: 0 }, { x: 1, y: 0 }))).toEqual([]));
  test("leaves and arrives as asked, and its arcs share a tangent", () => {
    const angle = fc.double({ min: -1.2, max: 1.2, noNaN: true });
    fc.assert(
      fc.property(angle, angle, (a, b) => {
        const [out, into] = [heading(a), heading(b)];
        const path = biarc({ x: 0, y: 0 }, out, { x: 40, y: 3 }, into);
        const total = lengthOf(path);
        const joint = lengthOf({ ...path, vertices: path.vertices.slice(0, 2) });
        expect(distance(tangentAt(path, 0), out)).toBeLessThan(1e-6);
        expect(distance(tangentAt(path, total), into)).toBeLessThan(1e-6);
        expect(distance(tangentAt(path, joint - 1e-7), tangentAt(path, joint + 1e-7))).toBeLessThan(1e-5);
      }),
    );
  });
  test("without two ends it is refused", () =>
    expect(() => biarc({ x: 1, y: 1 }, { x: 1, y: 0 }, { x: 1, y: 1 }, { x: 1, y: 0 })).toThrow(RangeError));
});

function heading(angle: number): Point {
  return { x: Math.cos(angle), y: Math.sin(angle) };
}

/** A clothoid, whose curvature rises evenly: `rate` s at the length s. */
function clothoid(length: number, rate: number): SmoothCurve {
  const steps = 4000;
  const points: { x: number; y: number }[] = [{ x: 0, y: 0 }];
  for (let i = 0; i < steps; i++) {
    const mid = ((i + 0.5) / steps) * length;
    const [last, step] = [points[i]!, length / steps];
    points.push({
      x: last.x + step * Math.cos((rate * mid * mid) / 2),
      y: last.y + step * Math.sin((rate * mid * mid) / 2),
    });
  }
  return (u) => ({
    point: points[Math.round(u * steps)]!,
    direction: heading((rate * (u * length) ** 2) / 2),
    curvature: rate * u * length,
  });
}

describe("biarcs for a smooth curve", () => {
  // Literature, confirmed on clothoids: |κ'| h³ / 324 for one biarc of length h.
  test.each([20, 40])("one biarc of %s mm errs by κ' h³ / 324", (h) => {
    const rate = 1e-5;
    const curve = clothoid(h, rate);
    const path = fitBiarcs(curve, 1);
    expect(segments(path)).toHaveLength(2);
    const widest = Math.max(...Array.from({ length: 101 }, (_, i) => distanceTo(path, curve(i / 100).point)));
    expect(widest / ((rate * h ** 3) / 324)).toBeGreaterThan(0.95);
    expect(widest / ((rate * h ** 3) / 324)).toBeLessThan(1.05);
  });
  test.each([0.003, 0.0005])("within %s mm everywhere, with no more arcs than it takes", (tolerance) => {
    const curve = clothoid(200, 1e-5);
    const path = fitBiarcs(curve, tolerance);
    for (let i = 0; i <= 4000; i++) {
      expect(distanceTo(path, curve(i / 4000).point)).toBeLessThanOrEqual(tolerance);
    }
    const needed = 200 / Math.cbrt((324 * tolerance) / 1e-5);
    expect(segments(path).length).toBeLessThanOrEqual(2 * Math.ceil(needed * 1.05));
  });
});

describe("arcs for a run of points", () => {
  test("a flattened circle's half is one arc again", () => {
    const points = flatten(circle({ x: 3, y: 4 }, 50)).slice(0, 240);
    const found = segments(fitArcs(points, 0.003));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ kind: "arc" });
  });
  test("a flattened panel is four sides and four corners again", () => {
    const loop = flatten(roundedRectangle({ x: 0, y: 0 }, { x: 100, y: 60 }, 8));
    const kinds = segments(fitArcs([...loop, loop[0]!], 0.003)).map((s) => s.kind);
    expect(kinds).toEqual(Array.from({ length: 4 }, () => ["line", "arc"]).flat());
  });
  test("corners stay corners", () =>
    expect(
      fitArcs([
        { x: 0, y: 0 },
        { x: 10, y: 0 },
        { x: 10, y: 10 },
      ]).vertices,
    ).toHaveLength(3));
  test("any run is kept to within the tolerance, points and sides, end to end", () => {
    const step = fc.tuple(
      fc.double({ min: 0.2, max: 4, noNaN: true }),
      fc.double({ min: -0.3, max: 0.3, noNaN: true }),
    );
    const walk = fc.array(step, { minLength: 2, maxLength: 60 }).map((steps) => {
      const points = [{ x: 0, y: 0 }];
      let angle = 0;
      for (const [length, turn] of steps) {
        angle += turn;
        const last = points.at(-1)!;
        points.push({ x: last.x + length * Math.cos(angle), y: last.y + length * Math.sin(angle) });
      }
      return points;
    });
    fc.assert(
      fc.property(walk, fc.constantFrom(0.003, 0.1), (points, tolerance) => {
        const path = fitArcs(points, tolerance);
        expect(distance(path.vertices[0]!, points[0]!)).toBe(0);
        expect(distance(path.vertices.at(-1)!, points.at(-1)!)).toBe(0);
        points.slice(1).forEach((q, i) => {
          const p = points[i]!;
          for (const t of [0, 0.25, 0.5, 0.75]) {
            const on = { x: p.x + (q.x - p.x) * t, y: p.y + (q.y - p.y) * t };
            expect(distanceTo(path, on)).toBeLessThanOrEqual(tolerance * (1 + 1e-9));
          }
        });
        const run: Path = { closed: false, vertices: points.map((p) => ({ ...p, bulge: 0 })) };
        const total = lengthOf(path);
        for (let i = 0; i <= 40; i++) {
          expect(distanceTo(run, pointAt(path, (total * i) / 40))).toBeLessThanOrEqual(
            tolerance * (1 + 1e-9),
          );
        }
      }),
      { numRuns: 100 },
    );
  });
});
