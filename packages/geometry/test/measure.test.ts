import { describe, expect, test } from "vitest";
import {
  areaOf,
  boundsOf,
  circle,
  contains,
  distance,
  distanceTo,
  flatten,
  lengthOf,
  nearest,
  placeCurve,
  pointAt,
  polygon,
  polyline,
  rectangle,
  reversed,
  roundedRectangle,
  segment,
  segments,
  signedArea,
  tangentAt,
} from "../src/index.ts";
import fc from "./seeded.ts";
import { anyPlacement, anyPlate, disc } from "./shapes.ts";

const panel = roundedRectangle({ x: 10, y: 20 }, { x: 110, y: 70 }, 10);

describe("measuring a panel", () => {
  test("its bounds hold its arcs, not only its corners", () => {
    expect(boundsOf(panel)).toEqual({ min: { x: 10, y: 20 }, max: { x: 110, y: 70 } });
    expect(boundsOf(circle({ x: 5, y: 5 }, 3))).toEqual({ min: { x: 2, y: 2 }, max: { x: 8, y: 8 } });
    expect(boundsOf([panel, circle({ x: 0, y: 0 }, 1)])).toEqual({
      min: { x: -1, y: -1 },
      max: { x: 110, y: 70 },
    });
    expect(() => boundsOf([])).toThrow(RangeError);
  });
  test("run the other way, its area changes sign and its length does not", () => {
    expect(signedArea(reversed(panel))).toBeCloseTo(-signedArea(panel), 9);
    expect(lengthOf(reversed(panel))).toBeCloseTo(lengthOf(panel), 9);
    expect(reversed(reversed(panel))).toEqual(panel);
  });
  test("an opening counts against it", () =>
    expect(areaOf([{ outer: panel, holes: [reversed(circle({ x: 60, y: 45 }, 5))] }])).toBeCloseTo(
      5000 - (4 - Math.PI) * 100 - 25 * Math.PI,
      9,
    ));
  test("a point is found by its distance along the edge, round and round", () => {
    const square = rectangle({ x: 0, y: 0 }, { x: 10, y: 10 });
    expect(pointAt(square, 15)).toEqual({ x: 10, y: 5 });
    expect(pointAt(square, 55)).toEqual({ x: 10, y: 5 });
    expect(pointAt(square, -5)).toEqual({ x: 0, y: 5 });
    expect(tangentAt(square, 10)).toEqual({ x: 0, y: 1 });
    expect(
      pointAt(
        polyline([
          { x: 0, y: 0 },
          { x: 3, y: 4 },
        ]),
        99,
      ),
    ).toEqual({ x: 3, y: 4 });
    const quarter = pointAt(circle({ x: 0, y: 0 }, 10), 5 * Math.PI);
    expect(distance(quarter, { x: 0, y: -10 })).toBeLessThan(1e-12);
  });
  test("a side of no length is no side", () => {
    const doubled = polygon([
      { x: 0, y: 0 },
      { x: 5, y: 0 },
      { x: 5, y: 0 },
      { x: 0, y: 5 },
    ]);
    expect(segments(doubled)).toHaveLength(3);
  });
  test("a bend too flat to tell is a line", () => {
    expect(segment({ x: 0, y: 0 }, { x: 300, y: 0 }, 1e-9).kind).toBe("line");
    expect(segment({ x: 0, y: 0 }, { x: 300, y: 0 }, 1e-7).kind).toBe("arc");
  });
});

describe("inside and outside", () => {
  test.each([
    [{ x: 60, y: 45 }, "inside"],
    [{ x: 10, y: 45 }, "edge"],
    [{ x: 12.9289, y: 22.9289 }, "outside"],
    [{ x: 12.929, y: 22.929 }, "inside"],
    [{ x: 0, y: 45 }, "outside"],
    [{ x: 0, y: 30 }, "outside"],
    [{ x: 0, y: 20 }, "outside"],
    [{ x: 60, y: 70 }, "edge"],
  ])("%o is %s", (p, side) => {
    expect(contains(panel, p)).toBe(side);
    expect(contains(reversed(panel), p)).toBe(side);
  });
  test("a hole is outside, its edge is edge", () => {
    const ring = { outer: panel, holes: [reversed(circle({ x: 60, y: 45 }, 5))] };
    expect(contains(ring, { x: 60, y: 45 })).toBe("outside");
    expect(contains(ring, { x: 65, y: 45 })).toBe("edge");
    expect(contains(ring, { x: 66, y: 45 })).toBe("inside");
  });
  test("inside any plate is where the winding of its chords says so", () => {
    const place = fc.double({ min: -50, max: 100, noNaN: true });
    fc.assert(
      fc.property(anyPlate, place, place, (plate, x, y) => {
        const p = { x, y };
        fc.pre(distanceTo(plate.outer, p) > 0.002);
        expect(contains(plate, p) === "inside").toBe(Math.abs(winding(flatten(plate.outer), p)) > 0.5);
      }),
      { numRuns: 300 },
    );
  });
});

function winding(points: readonly { x: number; y: number }[], p: { x: number; y: number }): number {
  let turns = 0;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!;
    const [ax, ay, bx, by] = [a.x - p.x, a.y - p.y, b.x - p.x, b.y - p.y];
    turns += Math.atan2(ax * by - ay * bx, ax * bx + ay * by) / (2 * Math.PI);
  });
  return turns;
}

describe("the nearest point", () => {
  test("lies on an arc, at an end, or on a side", () => {
    const found = nearest(panel, { x: 0, y: 10 });
    expect(found.distance).toBeCloseTo(Math.hypot(20, 20) - 10, 9);
    expect(nearest(panel, { x: 60, y: 0 })).toEqual({ point: { x: 60, y: 20 }, distance: 20, s: 40 });
    expect(
      nearest(
        polyline([
          { x: 0, y: 0 },
          { x: 1, y: 0 },
        ]),
        { x: 5, y: 3 },
      ).distance,
    ).toBe(5);
  });
  test("its distance along the edge leads back to it", () =>
    fc.assert(
      fc.property(anyPlate, fc.double({ min: 0, max: 400, noNaN: true }), ({ outer }, s) => {
        const p = pointAt(outer, s);
        const found = nearest(outer, p);
        expect(found.distance).toBeLessThan(1e-9);
        expect(distance(pointAt(outer, found.s), p)).toBeLessThan(1e-7);
      }),
    ));
});

describe("chords", () => {
  // Derived: sagitta R (1 − cos(θ / 2)).
  test.each([
    [50, 0.01, 158],
    [100, 0.01, 223],
  ])("a circle of R %s needs chords within %s: %s sides a turn", (radius, tolerance, sides) => {
    const points = flatten(circle({ x: 0, y: 0 }, radius), tolerance);
    // Each half turn is divided on its own.
    expect(points.length).toBeGreaterThanOrEqual(sides);
    expect(points.length).toBeLessThanOrEqual(sides + 2);
  });
  test("start and end on the curve and stand off it by no more than asked", () =>
    fc.assert(
      fc.property(anyPlate, fc.constantFrom(0.001, 0.02, 0.5), ({ outer }, tolerance) => {
        const points = flatten(outer, tolerance);
        points.forEach((p, i) => {
          const q = points[(i + 1) % points.length]!;
          expect(distanceTo(outer, p)).toBeLessThan(1e-9);
          expect(distanceTo(outer, { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 })).toBeLessThan(
            tolerance * 1.001,
          );
        });
      }),
      { numRuns: 50 },
    ));
  test("a speck is flattened to four sides at least", () =>
    expect(flatten(disc(0, 0, 0.0001).outer).length).toBe(4));
});

test("a placed plate keeps its area, its length and its winding", () =>
  fc.assert(
    fc.property(anyPlacement, anyPlate, (to, { outer }) => {
      const placed = placeCurve(to, outer);
      expect(signedArea(placed)).toBeCloseTo(signedArea(outer), 6);
      expect(lengthOf(placed)).toBeCloseTo(lengthOf(outer), 6);
    }),
  ));
