import { boundsOf, contains, distanceTo } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { numbersOf, recipe, slotEnd } from "../src/index.ts";
import type { Part, Recess } from "../src/part.ts";
import { sample } from "./designs.ts";

// Derived: the arithmetic of the case's inputs, W 540, D 336, Hf 46, Hb 122, t 14.8, k 7, l 6.8, c 0.1, g 0.4.
const design = sample("tidepool");
const assembly = recipe(design);

function part(id: string): Part {
  return assembly.parts.find((p) => p.id === id)!;
}

function recess(id: string, feature: string): Recess {
  return part(id).features.find((f) => f.id === feature) as Recess;
}

function size(id: string, x: number, y: number): void {
  const { min, max } = boundsOf(part(id).outline);
  expect(min.x).toBeCloseTo(0, 9);
  expect(min.y).toBeCloseTo(0, 9);
  expect(max.x).toBeCloseTo(x, 6);
  expect(max.y).toBeCloseTo(y, 6);
}

describe("tidepool's parts have the worked sizes", () => {
  test("the base blank is 553.6 × 349.6", () => size("base", 553.6, 349.6));
  test("the front rail is 553.6 × 60.8", () => size("rail-front", 553.6, 60.8));
  test("the back rail is 553.6 × 136.8", () => size("rail-back", 553.6, 136.8));
  test("the cheeks are 365.6 long and reach from the back foot to the back rail's top", () => {
    size("cheek-left", 365.6, 122 + 14.8 + 34);
    size("cheek-right", 365.6, 122 + 14.8 + 34);
  });
  test("slats are as long as the case is wide, less their clearance", () => size("slat-1", 538, 52));
});

describe("tidepool's recesses have the worked sizes", () => {
  test("the base's rebate is 7.8 deep and leaves the floor 540 × 336", () => {
    const { depth, region } = recess("base", "rebate");
    expect(depth).toBeCloseTo(7.8, 9);
    const floor = boundsOf(region.holes[0]!);
    expect(floor.max.x - floor.min.x).toBeCloseTo(540, 6);
    expect(floor.max.y - floor.min.y).toBeCloseTo(336, 6);
  });

  for (const rail of ["rail-front", "rail-back"]) {
    test(`the groove of ${rail} runs from 7.7 to 14.9 over its bottom, 7.2 deep`, () => {
      const { depth, region } = recess(rail, "groove");
      expect(depth).toBeCloseTo(7.2, 9);
      expect(boundsOf(region.outer).min.y).toBeCloseTo(7.7, 4);
      expect(boundsOf(region.outer).max.y).toBeCloseTo(14.9, 4);
    });
    test(`the rebates of ${rail} are on its outside, 7.8 deep, and leave 540 between their shoulders`, () => {
      const [left, right] = [recess(rail, "rebate-left"), recess(rail, "rebate-right")];
      expect([left.face, right.face]).toEqual(["B", "B"]);
      expect(left.depth).toBeCloseTo(7.8, 9);
      expect(boundsOf(right.region.outer).min.x - boundsOf(left.region.outer).max.x).toBeCloseTo(540, 4);
    });
  }

  test("the cheeks' housings are 7.2 wide, 7.2 deep, and leave 7.6", () => {
    const { depth, region } = recess("cheek-left", "housing");
    expect(depth).toBeCloseTo(7.2, 9);
    expect(14.8 - depth).toBeCloseTo(7.6, 9);
    expect(numbersOf(design).behind).toBeCloseTo(7.6, 9);
    // The walls of the base's housing, at mid-length, and of the front rail's, at mid-height.
    const floor = 14.8 + 34;
    const walls = [
      [180, floor - 7.1, 180, floor + 0.1],
      [14.8 - 7.1, floor + 25, 14.9, floor + 25],
    ] as const;
    for (const [x0, y0, x1, y1] of walls) {
      expect(distanceTo(region.outer, { x: x0, y: y0 })).toBeLessThan(1e-4);
      expect(distanceTo(region.outer, { x: x1, y: y1 })).toBeLessThan(1e-4);
      expect(contains(region, { x: (x0 + x1) / 2, y: (y0 + y1) / 2 })).toBe("inside");
    }
  });
});

describe("tidepool as a whole", () => {
  test("is 569.6 wide and 365.6 deep outside", () => {
    expect(assembly.outside.width).toBeCloseTo(569.6, 9);
    expect(assembly.outside.depth).toBeCloseTo(365.6, 9);
  });
  test("rakes 4.068°", () => expect((assembly.rake * 180) / Math.PI).toBeCloseTo(4.068, 3));
  test("has a tier 212 deep", () => expect(numbersOf(design).tierDepth).toBe(212));
  test("stands on four corners of one plane, drops 8 and 34", () => {
    expect(assembly.feet.map((f) => f.z)).toEqual([-14.8 - 8, -14.8 - 34, -14.8 - 8, -14.8 - 34]);
  });
  test("no tongue comes nearer to a round end than the slot-end rule", () => {
    for (const joint of assembly.joints.filter((j) => j.housing.part.startsWith("cheek"))) {
      expect(joint.fit.alongLeast).toBeCloseTo(2.2319, 4);
      expect(joint.fit.alongLeast).toBe(slotEnd(3, 0.1));
    }
  });
  test("the front rail's tongue stands 34.67 high under the stop, the slot end and its own round root", () => {
    // Derived: 46 − 6 − 2.2319 − 3 − 0.1.
    const { box } = assembly.joints.find((j) => j.id === "rail-front-left")!.tongue;
    expect(box.max.z - box.min.z).toBeCloseTo(46 - 6 - slotEnd(3, 0.1) - 3 - 0.1, 6);
  });
});
