import { describe, expect, test } from "vitest";
import {
  areaOf,
  circle,
  contains,
  difference,
  lengthOf,
  OFFSET_MM,
  offset,
  offsetFlat,
  placeRegion,
  polygon,
  type Region,
  reversed,
  segments,
  union,
} from "../src/index.ts";
import fc from "./seeded.ts";
import {
  anyPlacement,
  anyPlate,
  boundaryPoints,
  box,
  disc,
  distanceToAny,
  isSound,
  latticePlates,
  loopsIn,
  plate,
  rounded,
} from "./shapes.ts";

const corners = (regions: readonly Region[]): number[][] =>
  loopsIn(regions).flatMap((loop) => loop.vertices.map(({ x, y }) => [x, y]));

describe("a panel's outline, for a cutter of radius 3", () => {
  // Derived (Steiner): area + perimeter d + π d².
  test("grown, a square corner becomes a quarter turn", () => {
    const grown = offset([box(0, 0, 100, 60)], 3);
    expect(areaOf(grown)).toBeCloseTo(6000 + 320 * 3 + 9 * Math.PI, 9);
    expect(segments(grown[0]!.outer).map((s) => s.kind)).toEqual(
      Array.from({ length: 4 }, () => ["arc", "line"]).flat(),
    );
  });
  test("shrunk, it stays square, to the last digit", () =>
    expect(corners(offset([box(0, 0, 100, 60)], -3))).toEqual([
      [3, 3],
      [97, 3],
      [97, 57],
      [3, 57],
    ]));
  test("corners of exactly the cutter's radius shrink to clean corners", () =>
    expect(corners(offset([rounded(0, 0, 100, 60, 3)], -3))).toEqual([
      [3, 3],
      [97, 3],
      [97, 57],
      [3, 57],
    ]));
  test("wider corners keep an arc of the difference, tighter ones none", () => {
    const [wide] = offset([rounded(0, 0, 100, 60, 5)], -3);
    const radii = segments(wide!.outer).flatMap((s) => (s.kind === "arc" ? [s.radius.toFixed(9)] : []));
    expect(radii).toEqual(Array(4).fill("2.000000000"));
    const [tight] = offset([rounded(0, 0, 100, 60, 2)], -3);
    expect(segments(tight!.outer).map((s) => s.kind)).toEqual(["line", "line", "line", "line"]);
  });
  test("grown again by as much, shrunk corners come back as they were", () => {
    const back = offset(offset([rounded(0, 0, 100, 60, 3)], -3), 3);
    expect(areaOf(back)).toBeCloseTo(areaOf([rounded(0, 0, 100, 60, 3)]), 9);
    expect(back[0]!.outer.vertices).toHaveLength(8);
  });
  test("an opening shrinks as the panel grows, and goes when nothing is left of it", () => {
    const panel = { ...box(0, 0, 100, 60), holes: [reversed(circle({ x: 50, y: 30 }, 5))] };
    const [grown] = offset([panel], 3);
    expect(segments(grown!.holes[0]!)[0]).toMatchObject({ radius: 2, centre: { x: 50, y: 30 } });
    expect(offset([panel], 5)[0]!.holes).toEqual([]);
    expect(offset([panel], 7)[0]!.holes).toEqual([]);
  });
  test("a slot of just the cutter's width shrinks to nothing", () => {
    expect(offset([rounded(0, 0, 40, 6, 3)], -3)).toEqual([]);
    expect(offset([box(0, 0, 40, 6)], -3)).toEqual([]);
    expect(offset([disc(0, 0, 3)], -3)).toEqual([]);
    expect(offset([disc(0, 0, 3)], -4)).toEqual([]);
  });
  test("a neck narrower than the cutter parts the recess", () => {
    const dumbbell = union([box(0, 0, 20, 20), box(30, 0, 20, 20), box(20, 8, 10, 5)]);
    expect(offset(dumbbell, -3)).toHaveLength(2);
    expect(offset(dumbbell, -2)).toHaveLength(1);
  });
  test("by nothing, it stays the same", () =>
    expect(offset([box(0, 0, 9, 9)], 0)).toEqual([box(0, 0, 9, 9)]));
});

test("hollow corners spread when shrunk: the cutter rounds them", () => {
  const step = difference([box(0, 0, 40, 40)], [box(20, 20, 20, 20)]);
  const [shrunk] = offset(step, -3);
  const arcs = segments(shrunk!.outer).filter((s) => s.kind === "arc");
  expect(arcs).toHaveLength(1);
  expect(arcs[0]!.radius).toBeCloseTo(3, 9);
  expect(arcs[0]!.centre).toEqual({ x: 20, y: 20 });
});

test("at a cusp between two arcs the tip is rounded and the hollow closes", () => {
  // Between two discs that touch and their common tangent.
  const nook = difference([box(0, 0, 20, 10)], [disc(0, 10, 10), disc(20, 10, 10)]);
  for (const by of [0.5, -0.5]) {
    const result = offset(nook, by);
    expect(isSound(result)).toBe(true);
    const far = boundaryPoints(result).map((p) => Math.abs(distanceToAny(loopsIn(nook), p) - 0.5));
    expect(Math.max(...far)).toBeLessThan(1e-4);
  }
});

describe.each([
  ["any plate", fc.array(anyPlate, { minLength: 1, maxLength: 1 })],
  ["aligned plates", latticePlates],
] as const)("%s", (_, plates) => {
  const by = fc.constantFrom(-4.5, -3, -1.5, -0.37, 0.37, 1.5, 3, 4.5);
  const numRuns = 30;

  test("stands off by the offset everywhere, in simple outlines", () =>
    fc.assert(
      fc.property(plates, by, (some, d) => {
        const source = union(some);
        const result = offset(source, d);
        expect(isSound(result)).toBe(true);
        for (const p of boundaryPoints(result)) {
          expect(Math.abs(distanceToAny(loopsIn(source), p) - Math.abs(d))).toBeLessThan(2e-6);
        }
      }),
      { numRuns },
    ));

  test("holds what is near enough, and nothing else", () =>
    fc.assert(
      fc.property(
        plates,
        by,
        fc.array(fc.tuple(fc.integer({ min: -80, max: 800 }), fc.integer({ min: -80, max: 800 })), {
          minLength: 20,
        }),
        (some, d, places) => {
          const source = union(some);
          const result = offset(source, d);
          for (const [x, y] of places) {
            const p = { x: x / 10, y: y / 10 };
            const edge = distanceToAny(loopsIn(source), p);
            if (Math.abs(edge - Math.abs(d)) < 1e-4) continue;
            const within = source.some((region) => contains(region, p) !== "outside");
            const expected = d > 0 ? within || edge < d : within && edge > -d;
            expect(result.some((region) => contains(region, p) !== "outside")).toBe(expected);
          }
        },
      ),
      { numRuns },
    ));

  test("flat, it is the same within its chords; turned or flipped, too", () =>
    fc.assert(
      fc.property(plates, by, anyPlacement, (some, d, to) => {
        const source = union(some);
        const result = offset(source, d);
        const length = loopsIn(result).reduce((sum, loop) => sum + lengthOf(loop), 1);
        expect(Math.abs(areaOf(offsetFlat(source, d)) - areaOf(result))).toBeLessThan(length * OFFSET_MM);
        const turned = offset(
          source.map((region) => placeRegion(to, region)),
          d,
        );
        expect(turned).toHaveLength(result.length);
        expect(Math.abs(areaOf(turned) - areaOf(result))).toBeLessThan(1e-4);
      }),
      { numRuns },
    ));
});

test("a convex plate grows by its perimeter times the offset and a full turn", () => {
  const steps = fc.array(fc.double({ min: 0.2, max: 1, noNaN: true }), { minLength: 3, maxLength: 12 });
  fc.assert(
    fc.property(steps, (list) => {
      const total = list.reduce((sum, step) => sum + step, 0);
      let angle = 0;
      const outer = polygon(
        list.map((step) => {
          angle += (2 * Math.PI * step) / total;
          return { x: 40 * Math.cos(angle), y: 40 * Math.sin(angle) };
        }),
      );
      // Derived (Steiner): area + perimeter d + π d².
      const expected = areaOf([plate(outer)]) + lengthOf(outer) * 5 + 25 * Math.PI;
      expect(areaOf(offset([plate(outer)], 5))).toBeCloseTo(expected, 4);
    }),
    { numRuns: 60 },
  );
});
