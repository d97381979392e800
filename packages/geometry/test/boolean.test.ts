import { describe, expect, test } from "vitest";
import {
  areaOf,
  contains,
  difference,
  differenceFlat,
  distance,
  FLATTENING_MM,
  intersection,
  intersectionFlat,
  lengthOf,
  placement,
  placeRegion,
  polygon,
  type Region,
  rectangle,
  regionsOf,
  reversed,
  segments,
  union,
  unionFlat,
} from "../src/index.ts";
import fc from "./seeded.ts";
import {
  anyPlacement,
  anyPlate,
  box,
  disc,
  distanceToAny,
  isSound,
  latticePlates,
  loopsIn,
  plate,
  rounded,
} from "./shapes.ts";

/** What came out, in few words: each region's area and how many lines and arcs bound it. */
function check(
  result: readonly Region[],
  ...expected: { area: number; lines?: number; arcs?: number }[]
): void {
  expect(isSound(result)).toBe(true);
  const found = result.map((region) => {
    const sides = loopsIn([region]).flatMap((loop) => segments(loop));
    return {
      area: areaOf([region]),
      lines: sides.filter((s) => s.kind === "line").length,
      arcs: sides.filter((s) => s.kind === "arc").length,
    };
  });
  expect(found).toHaveLength(expected.length);
  expected.forEach(({ area, lines = 0, arcs = 0 }, i) => {
    expect(found[i]!.area).toBeCloseTo(area, 6);
    expect([found[i]!.lines, found[i]!.arcs]).toEqual([lines, arcs]);
  });
}

describe("lines and arcs come back as they went in", () => {
  test("a round opening in a panel is two half turns", () => {
    const [panel] = difference([box(0, 0, 100, 60)], [disc(50, 30, 12)]);
    check([panel!], { area: 6000 - 144 * Math.PI, lines: 4, arcs: 2 });
    const [hole] = segments(panel!.holes[0]!);
    expect(hole).toMatchObject({ kind: "arc", centre: { x: 50, y: 30 }, radius: 12, sweep: -Math.PI });
  });
  test("a bite from an edge is one arc between two exact corners", () => {
    const result = difference([box(0, 0, 100, 60)], [disc(50, 60, 10)]);
    check(result, { area: 6000 - 50 * Math.PI, lines: 5, arcs: 1 });
    expect(result[0]!.outer.vertices.map(({ x, y }) => [x, y])).toEqual([
      [0, 0],
      [100, 0],
      [100, 60],
      [60, 60],
      [40, 60],
      [0, 60],
    ]);
  });
  test("untouched plates keep every number", () => {
    const plates = [rounded(0, 0, 553.6, 349.6, 6.8), rounded(600, 0.3, 60.8, 553.6, 3.175)];
    const back = union(plates);
    expect(areaOf(back)).toBeCloseTo(areaOf(plates), 9);
    plates.forEach(({ outer }, i) => {
      expect(new Set(back[i]!.outer.vertices.map(({ x, y }) => `${x} ${y}`))).toEqual(
        new Set(outer.vertices.map(({ x, y }) => `${x} ${y}`)),
      );
    });
  });
  test("two arcs cross where their circles do", () => {
    const [lens] = intersection([disc(0, 0, 5)], [disc(6, 0, 5)]);
    for (const v of lens!.outer.vertices) {
      expect(Math.abs(v.x - 3)).toBeLessThan(1e-9);
      expect(Math.abs(Math.abs(v.y) - 4)).toBeLessThan(1e-9);
    }
    // Derived: 2 r² acos(d / 2r) − d √(4r² − d²) / 2.
    expect(areaOf([lens!])).toBeCloseTo(50 * Math.acos(0.6) - 24, 9);
  });
});

describe("exactly aligned edges", () => {
  test("side by side, two boards are one", () =>
    check(union([box(0, 0, 30, 20), box(30, 0, 30, 20)]), { area: 1200, lines: 4 }));
  test("a step in their common edge stays", () =>
    check(union([box(0, 0, 30, 20), box(30, 5, 30, 20)]), { area: 1200, lines: 8 }));
  test("a slanted common edge vanishes, too", () => {
    const turned = (region: Region): Region => placeRegion(placement({ x: 3, y: 1 }, { angle: 0.4 }), region);
    check(union([box(0, 0, 30, 20), box(30, 5, 30, 10)].map(turned)), { area: 900, lines: 8 });
  });
  test("a housing flush with an edge opens it", () =>
    check(difference([box(0, 0, 100, 60)], [box(40, 50, 7.2, 10)]), { area: 5928, lines: 8 }));
  test("a plug of the same arc fills its hole without a sliver", () => {
    const ring = difference([box(0, 0, 100, 60)], [disc(50, 30, 12)]);
    check(union([...ring, disc(50, 30, 12)]), { area: 6000, lines: 4 });
    const part = intersection([disc(50, 30, 12)], [box(40, 20, 13.7, 40)]);
    // What is left open: a cap on the left of one arc, the rest of one arc of more than half a turn.
    check(union([...ring, ...part]), { area: areaOf(ring) + areaOf(part), lines: 4 + 1 + 2, arcs: 1 + 2 });
  });
  test("a plate minus itself is nothing, with itself is itself", () => {
    const cheek = rounded(0, 0, 365.6, 156, 8);
    expect(difference([cheek], [cheek])).toEqual([]);
    check(intersection([cheek], [cheek]), { area: areaOf([cheek]), lines: 4, arcs: 4 });
    check(union([cheek, cheek]), { area: areaOf([cheek]), lines: 4, arcs: 4 });
  });
});

describe("touching", () => {
  test("an opening tangent to an edge leaves the edge whole", () => {
    const result = union(difference([box(0, 0, 100, 60)], [disc(50, 48, 12)]));
    expect(areaOf(result)).toBeCloseTo(6000 - 144 * Math.PI, 6);
  });
  test("a disc inside a disc, touching, goes away in one and stays in the other", () => {
    expect(areaOf(union([disc(0, 0, 12), disc(6, 0, 6)]))).toBeCloseTo(144 * Math.PI, 6);
    expect(areaOf(difference([disc(0, 0, 12)], [disc(6, 0, 6)]))).toBeCloseTo(108 * Math.PI, 6);
    expect(areaOf(intersection([disc(0, 0, 12)], [disc(6, 0, 6)]))).toBeCloseTo(36 * Math.PI, 6);
  });
  test("a neck of no width parts the plate", () => {
    const dumbbell = difference([box(0, 0, 60, 20)], [disc(30, 0, 10), disc(30, 20, 10)]);
    expect(isSound(dumbbell)).toBe(true);
    expect(dumbbell.map((piece) => areaOf([piece]).toFixed(6))).toEqual([
      (600 - 50 * Math.PI).toFixed(6),
      (600 - 50 * Math.PI).toFixed(6),
    ]);
  });
  test("corner to corner, two plates stay two", () => {
    const result = union([box(0, 0, 10, 10), box(10, 10, 10, 10)]);
    expect(areaOf(result)).toBeCloseTo(200, 9);
    expect(isSound(result)).toBe(true);
  });
});

test("a frame holds an island, the island is a region of its own", () => {
  const frame = difference([box(0, 0, 100, 100)], [box(10, 10, 80, 80)]);
  const result = union([...frame, disc(50, 50, 20)]);
  check(result, { area: 3600, lines: 8 }, { area: 400 * Math.PI, arcs: 2 });
  expect(result[0]!.holes).toHaveLength(1);
});

test("loose loops are sorted into outers, holes and islands, however they are wound", () => {
  const loops = [
    disc(50, 50, 5).outer,
    reversed(box(0, 0, 100, 100).outer),
    box(40, 40, 20, 20).outer,
    box(200, 0, 9, 9).outer,
  ];
  const regions = regionsOf(loops);
  expect(isSound(regions)).toBe(true);
  expect(regions.map(({ holes }) => holes.length)).toEqual([1, 0, 0]);
  expect(areaOf(regions)).toBeCloseTo(10000 - 400 + 81 + 25 * Math.PI, 9);
});

test("a bow-tie is filled by how often it is wound round", () => {
  const tie = plate(
    polygon([
      { x: 0, y: 0 },
      { x: 10, y: 10 },
      { x: 10, y: 0 },
      { x: 0, y: 10 },
    ]),
  );
  expect(areaOf(union([tie]))).toBeCloseTo(50, 9);
});

test("nothing in, nothing out", () => {
  expect(union([])).toEqual([]);
  expect(difference([], [box(0, 0, 1, 1)])).toEqual([]);
  expect(areaOf(difference([box(0, 0, 1, 1)], []))).toBe(1);
  expect(intersection([box(0, 0, 1, 1)], [box(5, 5, 1, 1)])).toEqual([]);
});

describe.each([
  [
    "any plates",
    fc.tuple(
      fc.array(anyPlate, { minLength: 1, maxLength: 1 }),
      fc.array(anyPlate, { minLength: 1, maxLength: 1 }),
    ),
  ],
  ["aligned plates", fc.tuple(latticePlates, latticePlates)],
] as const)("%s", (_, pairs) => {
  const numRuns = 30;

  test("what is in both and what is in either add up", () =>
    fc.assert(
      fc.property(pairs, ([some, others]) => {
        const [a, b] = [union(some), union(others)];
        const both = areaOf(intersection(a, b));
        expect(Math.abs(areaOf(a) + areaOf(b) - areaOf(union([...a, ...b])) - both)).toBeLessThan(1e-4);
        expect(Math.abs(areaOf(a) - areaOf(difference(a, b)) - both)).toBeLessThan(1e-4);
        expect(Math.abs(areaOf(b) - areaOf(difference(b, a)) - both)).toBeLessThan(1e-4);
      }),
      { numRuns },
    ));

  test("every result is simple, and its every corner lies on an edge that went in", () =>
    fc.assert(
      fc.property(pairs, ([a, b]) => {
        const sources = loopsIn([...a, ...b]);
        for (const result of [union([...a, ...b]), difference(union(a), b), intersection(union(a), b)]) {
          expect(isSound(result)).toBe(true);
          for (const v of loopsIn(result).flatMap((loop) => loop.vertices)) {
            expect(distanceToAny(sources, v)).toBeLessThan(2e-6);
          }
        }
      }),
      { numRuns },
    ));

  test("flat results are the same within their chords", () =>
    fc.assert(
      fc.property(pairs, ([some, b]) => {
        const a = union(some);
        const same = (exact: Region[], flat: Region[]): void => {
          const length = loopsIn(exact).reduce((sum, loop) => sum + lengthOf(loop), 1);
          expect(Math.abs(areaOf(exact) - areaOf(flat))).toBeLessThan(length * FLATTENING_MM);
        };
        same(union([...a, ...b]), unionFlat([...a, ...b]));
        same(difference(a, b), differenceFlat(a, b));
        same(intersection(a, b), intersectionFlat(a, b));
      }),
      { numRuns },
    ));

  test("turned, flipped or begun elsewhere, plates give the same", () =>
    fc.assert(
      fc.property(pairs, anyPlacement, ([some, b], to) => {
        const a = union(some);
        const begunElsewhere = b.map(({ outer, holes }) => ({
          outer: { ...outer, vertices: [...outer.vertices.slice(1), outer.vertices[0]!] },
          holes,
        }));
        const here = difference(a, b);
        const there = difference(
          a.map((region) => placeRegion(to, region)),
          begunElsewhere.map((region) => placeRegion(to, region)),
        );
        expect(there).toHaveLength(here.length);
        expect(areaOf(there)).toBeCloseTo(areaOf(here), 4);
        const corners = (regions: readonly Region[]): number =>
          loopsIn(regions).reduce((sum, loop) => sum + loop.vertices.length, 0);
        expect(corners(there)).toBe(corners(here));
      }),
      { numRuns },
    ));
});

test("a thousand openings in one sheet are all there", () => {
  const openings = Array.from({ length: 1000 }, (_, i) =>
    disc(10 + (i % 40) * 30, 10 + Math.floor(i / 40) * 24, 8),
  );
  const [sheet] = difference([plate(rectangle({ x: -5, y: -5 }, { x: 1215, y: 605 }))], openings);
  expect(sheet!.holes).toHaveLength(1000);
  expect(areaOf([sheet!])).toBeCloseTo(1220 * 610 - 64000 * Math.PI, 5);
  expect(contains(sheet!, { x: 10, y: 10 })).toBe("outside");
  expect(distance(sheet!.holes[0]!.vertices[0]!, { x: 2, y: 10 })).toBeLessThan(1e-9);
});
