import { areaOf, boundsOf, distanceTo, isSimple } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import type { Relief } from "../src/design.ts";
import { leastBox, overcutOf, relievedBox } from "../src/relief.ts";

/** A box of 40 × 30 relieved for a cutter of diameter `d`. */
const box = (relief: Exclude<Relief, "none">, d: number) => relievedBox(40, 30, { relief, r: d / 2 });
const half = (r: number): number => (Math.PI * r * r) / 2;

describe("a diagonal relief", () => {
  // Derived: overcut r (1 - 1/√2); centre r / √2 from both walls.
  for (const [d, overcut, centre] of [
    [3, 0.4393, 1.0607],
    [4, 0.5858, Math.SQRT2],
    [6, 0.8787, 2.1213],
    [8, 1.1716, 2.8284],
  ] as const) {
    test(`of a cutter of ${d} stands out ${overcut}, its centre ${centre.toFixed(4)} from both walls`, () => {
      const { min, max } = boundsOf(box("diagonal", d));
      expect(max.x - 20).toBeCloseTo(overcut, 4);
      expect(-15 - min.y).toBeCloseTo(overcut, 4);
      expect(overcutOf("diagonal", d / 2)).toBeCloseTo(overcut, 4);
      expect(distanceTo(box("diagonal", d), { x: centre - 20, y: centre - 15 })).toBeCloseTo(d / 2, 3);
    });
  }
  test("touches the corner of the square part and no more", () =>
    expect(distanceTo(box("diagonal", 6), { x: 20, y: 15 })).toBeCloseTo(0, 9));
  test("adds four half discs less the corners that they cover", () =>
    // Derived: half a disc over the chord that cuts the corner off.
    expect(areaOf([{ outer: box("diagonal", 6), holes: [] }])).toBeCloseTo(1200 + 4 * (half(3) - 9), 6));
});

describe("a relief along one wall", () => {
  // Derived: centre (0, r) from the corner, overcut r past one wall and 0 past the other.
  test("runs on past the other walls by the cutter's radius", () => {
    const wide = boundsOf(box("along-width", 6));
    expect([wide.max.x, wide.max.y]).toEqual([23, 15]);
    const high = boundsOf(box("along-height", 6));
    expect([high.max.x, high.max.y]).toEqual([20, 18]);
    expect(areaOf([{ outer: box("along-width", 6), holes: [] }])).toBeCloseTo(1200 + 4 * half(3), 6);
  });
});

test("the smallest box that bears a relief is drawn without crossing itself", () => {
  for (const relief of ["diagonal", "along-width", "along-height"] as const) {
    const { x, y } = leastBox(relief, 3);
    expect(isSimple(relievedBox(x, y, { relief, r: 3 }))).toBe(true);
  }
});
