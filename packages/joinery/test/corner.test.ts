import { areaOf, isSimple, lengthOf, segments, signedArea } from "@dryfit/geometry";
import { expect, test } from "vitest";
import { corner, rounded } from "../src/corner.ts";

const square = (radius: number) =>
  rounded([corner(0, 0, radius), corner(100, 0, radius), corner(100, 100, radius), corner(0, 100, radius)]);

test("a square with round corners loses (4 − π) r²", () => {
  expect(signedArea(square(10))).toBeCloseTo(10_000 - (4 - Math.PI) * 100, 9);
});
test("and is as long as its sides less 8 r, and a circle", () => {
  expect(lengthOf(square(10))).toBeCloseTo(400 - 80 + 20 * Math.PI, 9);
});
test("an inside corner gains wood: an L loses less", () => {
  const l = rounded([
    corner(0, 0),
    corner(100, 0),
    corner(100, 50),
    corner(50, 50, 8),
    corner(50, 100),
    corner(0, 100),
  ]);
  expect(signedArea(l)).toBeCloseTo(7500 + (1 - Math.PI / 4) * 64, 9);
});
test("corners that meet in the middle of a side make a slot", () => {
  const slot = rounded([corner(0, 0, 5), corner(40, 0, 5), corner(40, 10, 5), corner(0, 10, 5)]);
  expect(signedArea(slot)).toBeCloseTo(300 + 25 * Math.PI, 9);
  expect(isSimple(slot)).toBe(true);
});
test("a corner between a line and an arc touches both", () => {
  // A half-round hump on a bar: both feet of the hump are inside corners.
  const hump = rounded([
    corner(0, 0),
    corner(100, 0),
    corner(100, 20),
    { ...corner(70, 20, 4), bulge: 1 },
    corner(30, 20, 4),
    corner(0, 20),
  ]);
  expect(isSimple(hump)).toBe(true);
  const arcs = segments(hump).filter((s) => s.kind === "arc");
  expect(arcs.map((a) => Math.round(a.radius))).toEqual([4, 20, 4]);
  // Tangent: the fillet's centre is r over the bar and R + r from the hump's centre.
  for (const a of arcs.filter((s) => s.radius < 5)) {
    expect(a.centre.y).toBeCloseTo(24, 9);
    expect(Math.hypot(a.centre.x - 50, a.centre.y - 20)).toBeCloseTo(24, 9);
  }
});
test("a corner of no angle stays a line", () => {
  const flat = rounded([corner(0, 0), corner(50, 0, 5), corner(100, 0), corner(100, 50), corner(0, 50)]);
  expect(areaOf([{ outer: flat, holes: [] }])).toBeCloseTo(5000, 9);
});
test("a corner wider than its sides is refused", () => {
  expect(() => square(60)).toThrow(RangeError);
});
test("two corners on one place count as one", () => {
  expect(
    signedArea(rounded([corner(0, 0), corner(0, 0), corner(10, 0), corner(10, 10), corner(0, 10)])),
  ).toBe(100);
});
