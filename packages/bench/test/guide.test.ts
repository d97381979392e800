import {
  areaOf,
  boundsOf,
  circle,
  difference,
  point,
  type Region,
  rectangle,
  reversed,
  roundedRectangle,
} from "@dryfit/geometry";
import { slotEnd } from "@dryfit/joinery";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  cornerRelief,
  fenceOffset,
  finishedHole,
  finishedRadius,
  guideOffset,
  insideTemplate,
  leftInCorner,
  outsideTemplate,
  routedInside,
  routedOutside,
  tightestCorner,
  withKerf,
} from "../src/index.ts";

const mmPerInch = 25.4;
const box = (width: number, height: number, radius = 0): Region => ({
  outer: roundedRectangle(point(0, 0), point(width, height), radius),
  holes: [],
});
const sizeOf = (regions: readonly Region[]) => {
  const { min, max } = boundsOf(regions.map(({ outer }) => outer));
  return [max.x - min.x, max.y - min.y];
};
const differ = (a: readonly Region[], b: readonly Region[]) =>
  areaOf(difference(a, b)) + areaOf(difference(b, a));

describe("from the template's edge to the cut (how-to pages, five agree)", () => {
  const check = (guide: number, cutter: number, expected: number) =>
    expect(guideOffset({ guide, cutter })).toBeCloseTo(expected, 9);
  test("a bush of 30 and a cutter of 10 leave 10", () => check(30, 10, 10));
  test("a bush of 3/4 in and a cutter of 1/2 in leave 1/8 in", () =>
    check(0.75 * mmPerInch, 0.5 * mmPerInch, 0.125 * mmPerInch));
  test("a bush of 15 and a cutter of 9 leave 3", () => check(15, 9, 3));
  test("a bearing of the cutter's own size leaves nothing", () => check(12.7, 12.7, 0));
});

describe("the size of a template", () => {
  const pair = { guide: 15, cutter: 9 };
  test("for an opening of 100 by 60 with bush 15 and cutter 9 is 106 by 66 (derived: finished + 2 o)", () =>
    expect(sizeOf(insideTemplate([box(100, 60, 4.5)], pair))).toEqual([
      expect.closeTo(106, 6),
      expect.closeTo(66, 6),
    ]));
  test("to run round is as much smaller (how-to pages: finished - 2 o)", () =>
    expect(sizeOf(outsideTemplate([box(100, 60)], pair))).toEqual([
      expect.closeTo(94, 6),
      expect.closeTo(54, 6),
    ]));
  test("a round hole loses the bush and gains the cutter (how-to pages)", () =>
    expect(finishedHole(38, { guide: 30, cutter: 16 })).toBe(24));
  test("a slot as wide as its cutter needs a template slot as wide as the bush (how-to pages)", () =>
    expect(6 + 2 * guideOffset({ guide: 16, cutter: 6 })).toBe(16));
});

describe("corners", () => {
  test("a template's inside corner is no tighter than the bush, the cut no tighter than the cutter (derived)", () =>
    expect(tightestCorner({ guide: 16, cutter: 6 })).toEqual({ template: 8, finished: 3 }));
  test("a wider one comes out tighter by the offset (derived)", () =>
    expect(finishedRadius(12, { guide: 16, cutter: 6 })).toBe(7));
  test("but never tighter than the cutter", () =>
    expect(finishedRadius(2, { guide: 16, cutter: 6 })).toBe(3));
  test("run round a template with sharp corners, a bush leaves a radius of the offset (derived)", () => {
    const pair = { guide: 16, cutter: 6 };
    const left = routedOutside(outsideTemplate([box(100, 60)], pair), pair);
    expect(differ(left, [box(100, 60, 5)])).toBeLessThan(0.01);
  });

  // joints_fits table: cutter, left in the corner, overcut of the relief, its middle from both walls. Derived.
  const rows: readonly (readonly [number, number, number, number])[] = [
    [3, 0.6213, 0.4393, 1.0607],
    [4, 0.8284, 0.5858, Math.SQRT2],
    [6, 1.2426, 0.8787, 2.1213],
    [8, 1.6569, 1.1716, 2.8284],
  ];
  test.each(rows)(
    "a cutter of %d leaves %d, its relief cuts %d over, %d from the walls",
    (d, left, over, at) => {
      expect(leftInCorner(d / 2)).toBeCloseTo(left, 4);
      const relief = cornerRelief(d / 2);
      expect(relief.overcut).toBeCloseTo(over, 4);
      expect([relief.x, relief.y]).toEqual([expect.closeTo(at, 4), expect.closeTo(at, 4)]);
    },
  );
  test("a corner of 60° keeps 3 mm of wood from a radius of 3 (derived)", () =>
    expect(leftInCorner(3, Math.PI / 3)).toBeCloseTo(3, 9));
  test("a square tongue stays 2.2319 short of a round end of 3, 1.3755 of one of 2, with 0.1 of air (derived)", () => {
    expect(slotEnd(3, 0.1)).toBeCloseTo(2.2319, 4);
    expect(slotEnd(2, 0.1)).toBeCloseTo(1.3755, 4);
  });
});

test("a base half 54.5 wide and a cutter of 19 set the fence 45 from the wall (a how-to's figures)", () =>
  expect(fenceOffset(54.5, 19)).toBe(45));

test("a beam of 0.2 wants 100.2 by 50.2 drawn for 100 by 50, and 9.8 for a hole of 10 (derived)", () => {
  const wanted: Region = {
    outer: rectangle(point(0, 0), point(100, 50)),
    holes: [reversed(circle(point(50, 25), 5))],
  };
  const [drawn] = withKerf([wanted], 0.2);
  expect(sizeOf([drawn!])).toEqual([expect.closeTo(100.2, 6), expect.closeTo(50.2, 6)]);
  expect(sizeOf([{ outer: drawn!.holes[0]!, holes: [] }])).toEqual([
    expect.closeTo(9.8, 6),
    expect.closeTo(9.8, 6),
  ]);
});

test("whatever bush and cutter, the route inside the template is the pocket, as far as the cutter goes into corners", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 3, max: 16, noNaN: true }),
      fc.double({ min: 2, max: 20, noNaN: true }),
      fc.double({ min: 0, max: 10, noNaN: true }),
      (cutter, wider, more) => {
        const pocket = [box(80, 50, cutter / 2 + more)];
        const pair = { guide: cutter + wider, cutter };
        expect(differ(routedInside(insideTemplate(pocket, pair), pair), pocket)).toBeLessThan(0.05);
      },
    ),
    { numRuns: 40 },
  );
});
