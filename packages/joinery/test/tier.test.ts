import { boundsOf } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { boxInCase, recipe } from "../src/index.ts";
import { numbersOf } from "../src/numbers.ts";
import { greatestSwing, reachThroughFrontRail } from "../src/tier.ts";
import { plainCase, sample } from "./designs.ts";

const tidepool = recipe(sample("tidepool"));

function boxOf(id: string) {
  const part = tidepool.parts.find((p) => p.id === id)!;
  return boxInCase(part, tidepool.poses[id]!, boundsOf(part.outline).max);
}

describe("tidepool's tier", () => {
  test("has its top at the asked height and stands free of cheeks and back rail", () => {
    for (const id of ["slat-1", "slat-2", "slat-3"]) {
      const { min, max } = boxOf(id);
      expect(max.z).toBeCloseTo(62, 9);
      expect(min.x).toBeCloseTo(1, 9);
      expect(max.x).toBeCloseTo(539, 9);
    }
    expect(336 - boxOf("slat-3").max.y).toBeCloseTo(3, 9);
  });
  test("keeps 28 between its slats, 212 over all", () => {
    expect(boxOf("slat-2").min.y - boxOf("slat-1").max.y).toBeCloseTo(28, 9);
    expect(boxOf("slat-3").max.y - boxOf("slat-1").min.y).toBeCloseTo(212, 9);
  });
  test("lies on its bearers and cleats", () => {
    for (const id of ["bearer-1", "bearer-2", "cleat-left", "cleat-right"]) {
      expect(boxOf(id).max.z).toBeCloseTo(boxOf("slat-1").min.z, 9);
    }
    expect(boxOf("bearer-1").min.z).toBeCloseTo(1, 9);
    expect(boxOf("cleat-left").min.x).toBeCloseTo(0, 9);
    expect(boxOf("cleat-right").max.x).toBeCloseTo(540, 9);
  });
  test("turns with its bearers about a pin 3 off the back rail and 3 over the slats", () => {
    expect(tidepool.hinge).toEqual({
      parts: ["slat-1", "slat-2", "slat-3", "bearer-1", "bearer-2"],
      axis: { x: 0, y: 333, z: 65 },
      swingDeg: 90,
    });
  });
});

describe("swing", () => {
  const tier = (rules: object) => plainCase({ tier: { slats: 2, slat: 50, height: 45, ...rules } });
  const greatest = (rules: object) => {
    const design = tier(rules);
    return greatestSwing(design, design.tier!);
  };
  test("a tier as high as the back rail swings right over", () => expect(greatest({ height: 80 })).toBe(180));
  test("below the rail it stops where its top meets the rail's edge", () => {
    // Derived: pin·sin a + rise·cos a = −pin, rise = 80 − 45 − 3 = 32.
    const a = (greatest({}) * Math.PI) / 180;
    expect(3 * Math.sin(a) + 32 * Math.cos(a)).toBeCloseTo(-3, 9);
    expect(greatest({})).toBeGreaterThan(90);
  });
  test("a pin further out swings further", () =>
    expect(greatest({ pin: 6 })).toBeGreaterThan(greatest({ pin: 3 })));
  test("the lower front corners need room before the front rail", () => {
    const through = (rules: object) => {
      const design = tier(rules);
      return reachThroughFrontRail(design, numbersOf(design), design.tier!);
    };
    // Derived: the corner turns on a radius of √(128² + 47²), the rail is 197 from the pin.
    expect(through({})).toBeCloseTo(Math.hypot(128, 47) - 197, 6);
    expect(through({ slats: 3, slat: 46 })).toBeGreaterThan(0);
    expect(through({ slats: 3, slat: 46, swing: 0 })).toBe(0);
  });
  test("a high and narrow tier has bearers with a narrow arch", () => {
    const design = plainCase({ "inside.back": 130, tier: { slats: 1, slat: 100, height: 115.9 } });
    const bearer = recipe(design).parts.find((p) => p.id === "bearer-1")!;
    expect(boundsOf(bearer.outline).max).toEqual({ x: expect.closeTo(100, 9), y: expect.closeTo(100.1, 9) });
    expect(bearer.outline.vertices.some((v) => v.bulge < 0)).toBe(true);
  });
  test("a fixed tier is screwed to its cleats", () => {
    const { parts, hinge } = recipe(tier({ swing: 0 }));
    expect(hinge).toBeNull();
    const holes = parts.find((p) => p.id === "slat-1")!.features.length;
    expect(holes).toBe(recipe(tier({})).parts.find((p) => p.id === "slat-1")!.features.length + 2);
  });
});
