import { describe, expect, test } from "vitest";
import {
  areaOf,
  difference,
  FLATTENING_MM,
  intersection,
  lengthOf,
  OFFSET_MM,
  offset,
  offsetFlat,
  type Region,
  segments,
  union,
} from "../src/index.ts";
import fc from "./seeded.ts";
import { box, disc, isSound, latticePlate, loopsIn, plate, rounded } from "./shapes.ts";

const lengthAround = (regions: readonly Region[]): number =>
  loopsIn(regions).reduce((sum, loop) => sum + lengthOf(loop), 1);

describe("plates a hair apart", () => {
  const hair = fc.constantFrom(0, 0, 1e-7, 1e-6, 1e-5, 3e-5, 1e-4, 5e-4, 1e-3, 3e-3);
  const shifted = fc
    .tuple(latticePlate, hair, hair, fc.boolean())
    .map(([{ outer }, dx, dy, back]): Region => {
      const sense = back ? -1 : 1;
      return plate({
        ...outer,
        vertices: outer.vertices.map((v) => ({ ...v, x: v.x + dx * sense, y: v.y + dy })),
      });
    });
  const plates = fc.array(shifted, { minLength: 1, maxLength: 3 });

  test("are cut into sound outlines, right to within the tolerance along their edges", () =>
    fc.assert(
      fc.property(plates, plates, (some, others) => {
        const [a, b] = [union(some), union(others)];
        const [all, both, rest] = [union([...a, ...b]), intersection(a, b), difference(a, b)];
        for (const result of [all, both, rest]) expect(isSound(result)).toBe(true);
        const slack = OFFSET_MM * lengthAround([...a, ...b]);
        expect(Math.abs(areaOf(a) + areaOf(b) - areaOf(all) - areaOf(both))).toBeLessThan(slack);
        expect(Math.abs(areaOf(a) - areaOf(rest) - areaOf(both))).toBeLessThan(slack);
      }),
      { numRuns: 60 },
    ));
  test("are offset as their chords are", () =>
    fc.assert(
      fc.property(plates, fc.constantFrom(-4.5, -3, -1.5, 1.5, 3), (some, by) => {
        const source = union(some);
        const result = offset(source, by);
        expect(isSound(result)).toBe(true);
        const slack = (OFFSET_MM + FLATTENING_MM) * lengthAround([...source, ...result]);
        expect(Math.abs(areaOf(result) - areaOf(offsetFlat(source, by)))).toBeLessThan(slack);
      }),
      { numRuns: 60 },
    ));
});

describe("found by hunting", () => {
  test("a bump below a strip of just the cutter's width keeps its cusps", () => {
    // Level spikes on top of it once cost a strip between them.
    const strip: Region = plate({
      closed: true,
      vertices: [
        { x: 6, y: 30, bulge: 0 },
        { x: 12, y: 30, bulge: 1 },
        { x: 18, y: 30, bulge: 0 },
        { x: 27, y: 30, bulge: 1 },
        { x: 27, y: 36, bulge: 0 },
        { x: 6, y: 36, bulge: 1 },
      ],
    });
    const [left] = offset([strip], -3);
    // Between the middle line and two quarter turns of the cutter: 2 (9 − 9 π / 4).
    expect(areaOf([left!])).toBeCloseTo(18 - 4.5 * Math.PI, 6);
    expect(left!.outer.vertices.map(({ x, y }) => [x, y].map((v) => v.toFixed(6)).join(" "))).toEqual([
      "12.000000 33.000000",
      "15.000000 30.000000",
      "18.000000 33.000000",
    ]);
  });
  test("a disc held by an arc that it touches within is not lost", () => {
    const [inner, outer] = [disc(18.6, 22.1, 6), disc(24.6, 22.1, 12)];
    expect(areaOf(intersection([inner], [outer]))).toBeCloseTo(36 * Math.PI, 6);
    expect(areaOf(difference([outer], [inner]))).toBeCloseTo(108 * Math.PI, 6);
  });
  test("two arcs that all but coincide are one, not a hundred", () => {
    const [grown] = offset(union([box(0, 0, 12, 6), box(0, 6.00002, 12.00002, 6)]), 3);
    expect(segments(grown!.outer).length).toBeLessThan(16);
    expect(areaOf(offset([box(0, 0, 12, 6), box(0, 6.00002, 12.00002, 6)], 3))).toBeCloseTo(
      144 + 48 * 3 + 9 * Math.PI,
      2,
    );
  });
  test("a tip where two arcs touch is rounded on the outside only", () => {
    const sickle = difference([disc(0, 0, 6)], [disc(1, 0, 5)]);
    expect(areaOf(sickle)).toBeCloseTo(11 * Math.PI, 6);
    const [grown] = offset(sickle, 1);
    expect(areaOf([grown!])).toBeCloseTo(Math.PI * (49 - 16), 4);
  });
  test("a slot a hair wider than the cutter leaves its hair, one thinner than chords can tell leaves nothing", () => {
    const [left] = offset([rounded(0, 0, 40, 6.01, 3.005)], -3);
    expect(areaOf([left!])).toBeCloseTo((40 - 6.01) * 0.01 + Math.PI * 0.005 ** 2, 8);
    expect(offset([rounded(0, 0, 40, 6.0001, 3.00005)], -3)).toEqual([]);
  });
});
