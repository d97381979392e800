import type { Assembly, Box3 } from "@dryfit/joinery";
import { beforeAll, describe, expect, test } from "vitest";
import { blockOf, loadSolidKernel, type SolidKernel, scoped } from "../src/solids.ts";
import { type Swing, swingOf } from "../src/swing.ts";

let kernel: SolidKernel;
beforeAll(async () => {
  kernel = await loadSolidKernel();
});

/** A lid 100 deep and 10 thick, its hinge's axis at y 100 and height `axisZ`, before a back rail at y 101. */
function check(railTop: number, axisZ: number, expected: number | null, swingDeg = 90) {
  const lid: Box3 = { min: { x: 1, y: 0, z: 0 }, max: { x: 199, y: 100, z: 10 } };
  const rail: Box3 = { min: { x: 0, y: 101, z: -50 }, max: { x: 200, y: 115, z: railTop } };
  expect(swung({ lid, rail }, { x: 0, y: 100, z: axisZ }, swingDeg)?.bindsAtDeg).toBe(expected);
}

function swung(boxes: Readonly<Record<string, Box3>>, axis: Box3["min"], swingDeg: number): Swing | null {
  const hinge: Assembly["hinge"] = { parts: ["lid"], axis, swingDeg };
  return scoped(kernel, (scope) => {
    const woods = Object.entries(boxes).map(([part, box]) => [part, blockOf(scope, box)] as const);
    return swingOf(scope, hinge, new Map(woods));
  });
}

describe("a hinged lid", () => {
  test("hinged at its upper edge opens before a rail that stands higher", () => check(30, 10, null));

  // Its upper back corner, 10 over the axis, goes back by 10·sin(angle): past 1 mm at asin(0.1) = 5.74° (derived).
  test("hinged at its lower edge meets that rail at 6°", () => check(30, 0, 6));

  test("hinged at its lower edge opens over a rail that ends below it", () => check(-1, 0, null));

  // The corner stands highest over its axis; back by 10·sin(5°) = 0.87 it still has air.
  test("opens as far as it must, and no further is asked", () => check(30, 0, null, 5));

  test("says where it binds", () => {
    const lid: Box3 = { min: { x: 1, y: 0, z: 0 }, max: { x: 199, y: 100, z: 10 } };
    const stud: Box3 = { min: { x: 50, y: 101, z: 0 }, max: { x: 60, y: 115, z: 30 } };
    const { overlap } = swung({ lid, stud }, { x: 0, y: 100, z: 0 }, 90)!;
    expect(overlap!.box.min.x).toBeCloseTo(50, 1);
    expect(overlap!.box.max.x).toBeCloseTo(60, 1);
  });
});

test("nothing swings where nothing is hinged", () => {
  expect(scoped(kernel, (scope) => swingOf(scope, null, new Map()))).toBeNull();
});
