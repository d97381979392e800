import { describe, expect, test } from "vitest";
import {
  arcFromBulge,
  areaOf,
  bulgeFromSweep,
  lengthOf,
  pointAt,
  polyline,
  rectangle,
  roundedRectangle,
  signedArea,
  sweepFromBulge,
} from "../src/index.ts";

const rad = (deg: number): number => (deg * Math.PI) / 180;

// DXF Reference, LWPOLYLINE: bulge = tan(included angle / 4).
test.each([
  [30, 0.131652498],
  [45, 0.198912367],
  [60, 0.267949192],
  [90, 0.414213562],
  [120, 0.577350269],
  [180, 1],
])("an arc of %s° has the bulge %s", (sweep, bulge) => {
  expect(bulgeFromSweep(rad(sweep))).toBeCloseTo(bulge, 9);
  expect(bulgeFromSweep(-rad(sweep))).toBeCloseTo(-bulge, 9);
  expect(sweepFromBulge(bulge)).toBeCloseTo(rad(sweep), 7);
});

test("half a turn is exactly 1, more than that is refused", () => {
  expect(bulgeFromSweep(Math.PI)).toBe(1);
  expect(bulgeFromSweep(-Math.PI)).toBe(-1);
  expect(() => bulgeFromSweep(rad(270))).toThrow(RangeError);
  expect(() => bulgeFromSweep(Number.NaN)).toThrow(RangeError);
  expect(() => arcFromBulge({ x: 0, y: 0 }, { x: 1, y: 0 }, 0)).toThrow(RangeError);
});

// Derived: with chord c, r = c (1 + b²) / 4|b|, sagitta |b| c / 2, centre = middle + n c (1 − b²) / 4b.
interface Expected {
  readonly bulge: number;
  readonly sweepDeg: number;
  readonly radius: number;
  readonly centre: readonly [number, number];
  readonly apex: readonly [number, number];
  readonly length: number;
}

function check(from: [number, number], to: [number, number], expected: Expected): void {
  const [p, q] = [
    { x: from[0], y: from[1] },
    { x: to[0], y: to[1] },
  ];
  const arc = arcFromBulge(p, q, expected.bulge);
  expect(arc.sweep).toBeCloseTo(rad(expected.sweepDeg), 7);
  expect(arc.radius).toBeCloseTo(expected.radius, 6);
  expect(arc.centre.x).toBeCloseTo(expected.centre[0], 6);
  expect(arc.centre.y).toBeCloseTo(expected.centre[1], 6);
  const path = {
    ...polyline([p, q]),
    vertices: [
      { ...p, bulge: expected.bulge },
      { ...q, bulge: 0 },
    ],
  };
  expect(lengthOf(path)).toBeCloseTo(expected.length, 6);
  const apex = pointAt(path, expected.length / 2);
  expect(apex.x).toBeCloseTo(expected.apex[0], 6);
  expect(apex.y).toBeCloseTo(expected.apex[1], 6);
}

describe("an arc from its chord and bulge", () => {
  test("shallow, to the right of travel", () =>
    check([0, 0], [10, 0], {
      bulge: 0.5,
      sweepDeg: 106.260205,
      radius: 6.25,
      centre: [5, 3.75],
      apex: [5, -2.5],
      length: 11.59119,
    }));
  test("half a turn, to the left", () =>
    check([0, 0], [10, 0], {
      bulge: -1,
      sweepDeg: -180,
      radius: 5,
      centre: [5, 0],
      apex: [5, 5],
      length: 15.707963,
    }));
  test("a quarter, going up", () =>
    check([100, 0], [100, 50], {
      bulge: 0.414213562,
      sweepDeg: 90,
      radius: 35.355339,
      centre: [75, 25],
      apex: [110.355339, 25],
      length: 55.536037,
    }));
});

// Derived: area ab − (4 − π) r², perimeter 2 (a + b − 4 r) + 2 π r.
test("a panel 100 × 50 with corners of 10 has eight vertices and four quarter bulges", () => {
  const panel = roundedRectangle({ x: 0, y: 0 }, { x: 100, y: 50 }, 10);
  expect(panel.vertices).toHaveLength(8);
  const bulges = panel.vertices.filter((v) => v.bulge !== 0).map((v) => v.bulge);
  expect(bulges).toHaveLength(4);
  for (const bulge of bulges) expect(bulge).toBeCloseTo(0.414213562, 9);
  expect(signedArea(panel)).toBeCloseTo(4914.159265, 6);
  expect(lengthOf(panel)).toBeCloseTo(282.831853, 6);
});

test("a slot's round ends meet without sides between, and a radius too large is refused", () => {
  const slot = roundedRectangle({ x: 0, y: 0 }, { x: 30, y: 6 }, 3);
  expect(slot.vertices).toHaveLength(6);
  expect(signedArea(slot)).toBeCloseTo(24 * 6 + 9 * Math.PI, 9);
  expect(roundedRectangle({ x: 0, y: 0 }, { x: 6, y: 6 }, 3).vertices).toHaveLength(4);
  expect(() => roundedRectangle({ x: 0, y: 0 }, { x: 30, y: 6 }, 3.1)).toThrow(RangeError);
  expect(areaOf([{ outer: rectangle({ x: 0, y: 0 }, { x: 30, y: 6 }), holes: [] }])).toBe(180);
});
