import { distance, type Segment } from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gapBetween, nearestOn } from "../src/cut/gap.ts";
import { pointOn } from "../src/cut/stroke.ts";

const line = (x0: number, y0: number, x1: number, y1: number): Segment => ({
  kind: "line",
  from: { x: x0, y: y0 },
  to: { x: x1, y: y1 },
});

/** From `start` radians on, round (x, y). */
function arc(x: number, y: number, radius: number, start: number, sweep: number): Segment {
  const at = (angle: number) => ({ x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) });
  return { kind: "arc", from: at(start), to: at(start + sweep), centre: { x, y }, radius, sweep };
}

function check(a: Segment, b: Segment, expected: number) {
  expect(gapBetween(a, b).distance).toBeCloseTo(expected, 9);
  expect(gapBetween(b, a).distance).toBeCloseTo(expected, 9);
}

describe("the gap between two ways of a cutter", () => {
  test("lines that cross meet", () => check(line(0, 0, 10, 10), line(0, 10, 10, 0), 0));
  test("lines side by side", () => check(line(0, 0, 10, 0), line(3, 2, 7, 2), 2));
  test("a plunge beside a line", () => check(line(5, 3, 5, 3), line(0, 0, 10, 0), 3));
  test("a plunge beyond a line's end", () => check(line(13, 4, 13, 4), line(0, 0, 10, 0), 5));
  test("a line past a circle", () => check(line(-9, 8, 9, 8), arc(0, 0, 5, 0, 2 * Math.PI), 3));
  test("a line inside a circle", () => check(line(-1, 0, 1, 0), arc(0, 0, 5, 0, 2 * Math.PI), 4));
  test("a line through an arc's gap", () => check(line(0, 0, 9, 0), arc(0, 0, 5, Math.PI / 2, Math.PI), 5));
  test("circles apart", () => check(arc(0, 0, 5, 0, 7), arc(12, 0, 4, 0, -7), 3));
  test("a circle in a circle, off centre", () => check(arc(0, 0, 9, 0, 6.3), arc(2, 0, 4, 0, 6.3), 3));
  test("a circle in a circle, on centre", () => check(arc(0, 0, 9, 0, 6.3), arc(0, 0, 4, 1, 2), 5));

  const coordinate = fc.integer({ min: -20, max: 20 });
  const anySegment = fc.oneof(
    fc.tuple(coordinate, coordinate, coordinate, coordinate).map((c) => line(...c)),
    fc
      .tuple(
        coordinate,
        coordinate,
        fc.integer({ min: 1, max: 15 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: 0.1, max: 6, noNaN: true }),
        fc.boolean(),
      )
      .map(([x, y, r, start, sweep, back]) => arc(x, y, r, start, back ? -sweep : sweep)),
  );
  test("is the least over the points of one way of their distance to the other", () => {
    fc.assert(
      fc.property(anySegment, anySegment, (a, b) => {
        const gap = gapBetween(a, b);
        const looks = Array.from({ length: 401 }, (_, i) => pointOn(a, i / 400));
        const seen = Math.min(...looks.map((p) => distance(p, nearestOn(b, p))));
        expect(gap.distance).toBeLessThanOrEqual(seen + 1e-9);
        // A way of 90 mm at most, looked at in 400 places: nothing is farther from one than 0.12 mm.
        expect(gap.distance).toBeGreaterThan(seen - 0.12);
      }),
      { numRuns: 500 },
    );
  });
});
