import { CONTROLLERS, defaultCutters, defaultMachine } from "@dryfit/gcode";
import { rectangle } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";
import { leastOf, leastTravel } from "./bench/least.ts";
import { neededIn } from "./bench/least-shape.ts";
import { type Ratios, ratiosOf } from "./bench/ratios.ts";
import { SAMPLES } from "./sample.ts";

describe.each(SAMPLES)("the programs of %s, default shop", (name) => {
  let found: Ratios | null = null;
  const ratios = (): Ratios => {
    found ??= ratiosOf(name);
    return found;
  };
  test("take at most a quarter longer than geometry and shop allow", () => {
    const { seconds, leastSeconds } = ratios();
    expect(seconds / leastSeconds).toBeLessThanOrEqual(1.25);
  });
  test("beat the bound nowhere", () => {
    const { cuts } = ratios();
    expect(cuts.filter(({ seconds, leastSeconds }) => seconds < leastSeconds).map(({ id }) => id)).toEqual(
      [],
    );
  });
  test("hold at most 1.2 blocks for each element and pass", () => {
    const { blocks, elements } = ratios();
    expect(blocks / elements).toBeLessThanOrEqual(1.2);
  });
  test("run their rapids along a shorter way than the naive order", () => {
    const { planned, naive } = ratios();
    expect(planned / naive).toBeLessThanOrEqual(name === "tidepool" ? 0.5 : 0.75);
  });
});

describe("the lower bound", () => {
  const machine = { ...defaultMachine(), controller: CONTROLLERS.basic };
  const up6 = defaultCutters().find(({ id }) => id === "up-6")!;
  const set = { rpm: null, feedMmPerMin: 3000, plungeMmPerMin: 900, depthPerPass: 6, stepover: 2.4 };
  const shop = { machine, cutters: [{ ...up6, set }], skinOf: () => null };
  const part = (features: Part["features"]) =>
    ({
      id: "board",
      outline: rectangle({ x: 0, y: 0 }, { x: 400, y: 100 }),
      thickness: { min: 11.5, mean: 11.5, max: 11.5 },
      features,
    }) as unknown as Part;

  test("of a board's outline is its passes, its entry and the run over the last ramp", () => {
    // derived: 12 deep in 2 passes of 6; offset outline 1000 + 6π = 1018.85 long, at 50 mm/s.
    const [outline] = leastOf(part([]), shop);
    const straight = (2 * 1018.85) / 50;
    // 12 / tan 5° = 137.2 mm at the ramp feed (half of 50 mm/s) instead, 6 / tan 5° = 68.6 once more.
    const ramps = 137.2 / 25 - 137.2 / 50 + 68.6 / 50;
    // Corners of radius 3 take √(500 · 3) = 38.7 mm/s: slowing down and up again costs about 0.03 s each.
    expect(outline!.seconds).toBeGreaterThan(straight + ramps + 0.6);
    expect(outline!.seconds).toBeLessThan(straight + ramps + 2.5);
    // derived: (4 lines + 4 arcs) × 2 passes.
    expect(outline!.elements).toBe(16);
  });

  const edge = rectangle({ x: 0, y: 0 }, { x: 400, y: 100 });
  const strip = (width: number) => ({
    outer: rectangle({ x: 0, y: 0 }, { x: 400, y: width }),
    holes: [],
  });
  const way = (width: number): number => {
    const { walls, inner } = neededIn(strip(width), edge, 3, 2.4)!;
    const wall = walls.flat().reduce((sum, s) => sum + Math.hypot(s.to.x - s.from.x, s.to.y - s.from.y), 0);
    return wall + inner;
  };
  test("of a rebate as wide as the cutter is one line along its wall", () => {
    expect(way(5.5)).toBeCloseTo(400, -1);
  });
  test("of a wider rebate is one line more", () => {
    expect(way(7)).toBeGreaterThan(780);
    expect(way(7)).toBeLessThan(812);
  });
  test("of a wide pocket is its area over the stepover, but for one line", () => {
    const pocket = { outer: rectangle({ x: 20, y: 20 }, { x: 220, y: 80 }), holes: [] };
    const { walls, inner } = neededIn(pocket, edge, 3, 2.4)!;
    expect(walls).toHaveLength(1);
    // derived: the wall's track leaves 188 × 48; the line through its middle is 236 − 9024/236 − 6 = 191.8 long.
    expect(inner).toBeCloseTo(191.8 + (9024 - 6 * 191.8 - 28.3) / 2.4, -1);
  });
  test("of the way between cuts is the tree that joins them", () => {
    const at = (x: number, y: number) => rectangle<"sheet">({ x, y }, { x: x + 10, y: y + 10 });
    // derived: legs of 90 and 40 mm, from rest to rest at 100 mm/s and 500 mm/s²; ramps of 0.2 s and 10 mm each.
    const seconds = leastTravel([at(0, 0), at(100, 0), at(100, 50)], 0, machine);
    expect(seconds).toBeCloseTo(0.4 + 70 / 100 + (0.4 + 20 / 100), 6);
  });
});
