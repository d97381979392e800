import { describe, expect, test } from "vitest";
import {
  type Curve,
  chainLoose,
  circle,
  defects,
  isSimple,
  type Loop,
  lengthOf,
  polygon,
  polyline,
  rectangle,
  reversed,
  roundedRectangle,
  segments,
  signedArea,
} from "../src/index.ts";
import { pathOf } from "../src/segment.ts";
import fc from "./seeded.ts";
import { anyPlate } from "./shapes.ts";

const loop = (...points: [number, number][]): Loop => polygon(points.map(([x, y]) => ({ x, y })));

describe("what is wrong with an outline, and where", () => {
  function check(outline: Loop, ...expected: [string, number, number][]): void {
    const found = defects(outline).map(({ kind, at }) => [
      kind,
      Math.round(at.x * 1e6) / 1e6,
      Math.round(at.y * 1e6) / 1e6,
    ]);
    expect(found).toHaveLength(expected.length);
    for (const one of expected) expect(found).toContainEqual(one);
    expect(isSimple(outline)).toBe(expected.length === 0);
  }
  test("a panel is sound", () => check(roundedRectangle({ x: 0, y: 0 }, { x: 100, y: 60 }, 3)));
  test("a slot's tangent ends are sound", () => check(roundedRectangle({ x: 0, y: 0 }, { x: 40, y: 6 }, 3)));
  test("a circle is sound", () => check(circle({ x: 0, y: 0 }, 4)));
  test("a bow-tie crosses", () => check(loop([0, 0], [12, 12], [12, 0], [0, 6]), ["crossing", 4, 4]));
  test("a corner on a side touches", () =>
    check(loop([0, 0], [10, 0], [10, 10], [5, 0], [0, 10]), ["touching", 5, 0], ["touching", 5, 0]));
  test("a side run back upon itself touches from end to end", () => {
    const kinds = defects(loop([0, 0], [10, 0], [20, 0], [10, 0], [10, 10]));
    expect(kinds.some(({ kind }) => kind === "touching")).toBe(true);
  });
  test("a corner given twice is doubled", () =>
    check(loop([0, 0], [10, 0], [10, 0], [10, 10]), ["doubled_vertex", 10, 0]));
  test("there and back has no area", () => {
    expect(defects(loop([0, 0], [10, 0])).map(({ kind }) => kind)).toContain("no_area");
  });
  test("an arc that bulges through the far side crosses it twice", () => {
    const bulged: Loop = {
      closed: true,
      vertices: [
        { x: 0, y: 0, bulge: -1 },
        { x: 20, y: 0, bulge: 0 },
        { x: 20, y: 5, bulge: 0 },
        { x: 0, y: 5, bulge: 0 },
      ],
    };
    const reach = Math.sqrt(75);
    check(
      bulged,
      ["crossing", Math.round((10 - reach) * 1e6) / 1e6, 5],
      ["crossing", Math.round((10 + reach) * 1e6) / 1e6, 5],
    );
  });
});

describe("loose lines and arcs", () => {
  const panel = roundedRectangle({ x: 0, y: 0 }, { x: 100, y: 60 }, 3);
  const pieces = (outline: Loop): Curve[] => segments(outline).map((s) => pathOf([s]));

  test("in any order and direction become the outline again", () =>
    fc.assert(
      fc.property(
        anyPlate,
        fc.array(fc.boolean(), { minLength: 8, maxLength: 8 }),
        fc.integer(),
        ({ outer }, flips, mix) => {
          const loose = pieces(outer)
            .map((piece, i) => ({
              piece: flips[i % 8] ? reversed(piece) : piece,
              key: (i * 7919 + mix) % 31,
            }))
            .sort((a, b) => a.key - b.key)
            .map(({ piece }) => piece);
          const { loops, open, forks } = chainLoose(loose);
          expect([loops.length, open.length, forks.length]).toEqual([1, 0, 0]);
          expect(Math.abs(signedArea(loops[0]!))).toBeCloseTo(signedArea(outer), 6);
          expect(lengthOf(loops[0]!)).toBeCloseTo(lengthOf(outer), 6);
        },
      ),
    ));
  test("with ends a little apart are joined within reach, and left open beyond it", () => {
    const gappy = [
      polyline([
        { x: 0, y: 0 },
        { x: 10, y: 0 },
        { x: 10, y: 10 },
      ]),
      polyline([
        { x: 10, y: 10.02 },
        { x: 0, y: 0 },
      ]),
    ];
    expect(chainLoose(gappy, 0.05).loops).toHaveLength(1);
    const { loops, open } = chainLoose(gappy, 0.01);
    expect(loops).toHaveLength(0);
    expect(open).toHaveLength(1);
    expect(lengthOf(open[0]!)).toBeCloseTo(20 + Math.hypot(10, 10.02), 9);
  });
  test("three ends in one place are a fork, not a guess", () => {
    const { loops, open, forks } = chainLoose([
      ...pieces(panel),
      polyline([
        { x: 3, y: 0 },
        { x: 3, y: 20 },
      ]),
    ]);
    expect(loops).toHaveLength(0);
    expect(open).toHaveLength(2);
    expect(forks).toEqual([{ x: 3, y: 0 }]);
  });
  test("closed ones stay as they are", () => {
    const square = rectangle({ x: 0, y: 0 }, { x: 5, y: 5 });
    expect(
      chainLoose([
        square,
        polyline([
          { x: 9, y: 9 },
          { x: 9, y: 9 },
        ]),
      ]),
    ).toEqual({ loops: [square], open: [], forks: [] });
  });
});
