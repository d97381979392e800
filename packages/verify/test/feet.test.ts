import type { Point3 } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";
import { footingOf } from "../src/feet.ts";

/** Four feet at the corners of 500 × 300, turned back by `rake` about the front ones; the last one `short` by so much. */
function feet(short: number, rake = 0): { designed: Point3[]; corners: Point3[] } {
  const at = (x: number, y: number, z: number): Point3 => ({
    x,
    y: y * Math.cos(rake) - z * Math.sin(rake),
    z: y * Math.sin(rake) + z * Math.cos(rake),
  });
  const plan = [
    [0, 0],
    [500, 0],
    [0, 300],
    [500, 300],
  ] as const;
  return {
    designed: plan.map(([x, y]) => at(x, y, 0)),
    corners: [
      ...plan.map(([x, y], i) => at(x, y, i === 3 ? short : 0)),
      ...plan.map(([x, y]) => at(x, y, 60)),
    ],
  };
}

const MIDDLE: Point3 = { x: 250, y: 150, z: 50 };

describe("a case on its feet", () => {
  test("stands still on four equal feet", () => {
    const { designed, corners } = feet(0);
    expect(footingOf(designed, corners, MIDDLE)).toMatchObject({ rocking: 0, below: 0, tipMargin: 150 });
  });

  test("rocks by what one foot is short", () => {
    const { designed, corners } = feet(0.5);
    expect(footingOf(designed, corners, MIDDLE)!.rocking).toBeCloseTo(0.5, 6);
  });

  test("rocks by what one foot is long, over the three others", () => {
    const { designed, corners } = feet(-0.5);
    expect(footingOf(designed, corners, MIDDLE)!.rocking).toBeCloseTo(0.5, 6);
  });

  test("rocks no less for being raked", () => {
    const { designed, corners } = feet(0.5, -0.07);
    expect(footingOf(designed, corners, MIDDLE)!.rocking).toBeCloseTo(0.5, 6);
  });

  test("does not stand on its feet where something reaches below them", () => {
    const { designed, corners } = feet(0);
    const belly = { x: 250, y: 150, z: -2 };
    expect(footingOf(designed, [...corners, belly], MIDDLE)!.below).toBeCloseTo(2, 6);
  });

  test("tips over where its centre of mass lies behind its feet", () => {
    const { designed, corners } = feet(0);
    expect(footingOf(designed, corners, { ...MIDDLE, y: 310 })!.tipMargin).toBeCloseTo(-10, 6);
  });

  test("has no footing on two feet", () => {
    const { designed, corners } = feet(0);
    expect(footingOf(designed.slice(0, 2), corners, MIDDLE)).toBeNull();
  });
});
