import { point, rectangle } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";
import type { Cutter } from "../src/cutter.ts";
import { defaultCutters } from "../src/default-shop.ts";
import { PLAN_OPTIONS } from "../src/plan-options.ts";
import { pinHolesFor } from "../src/plan-pins.ts";

const PANEL: Part = {
  id: "panel",
  panel: "panel",
  title: "Panel",
  material: "plywood",
  thickness: { min: 15, mean: 15, max: 15 },
  outline: rectangle(point(0, 0), point(300, 150)),
  features: [],
  roundOvers: [],
  grain: "free",
  faceNames: { A: "inside", B: "outside" },
  mating: [],
};

const drawer = (...ids: readonly string[]): readonly Cutter[] =>
  defaultCutters().filter(({ id }) => ids.includes(id));

function check(
  cutters: readonly Cutter[],
  diameter: number,
  depth: number,
  codes: readonly string[],
  asked = 6,
) {
  const options = { ...PLAN_OPTIONS, pins: { ...PLAN_OPTIONS.pins, depth: asked } };
  const holes = pinHolesFor(cutters, PANEL, options, 15.5);
  expect(holes.findings.map(({ code }) => code)).toEqual(codes);
  expect(holes.diameter).toBe(diameter);
  expect(holes.depth).toBeCloseTo(depth, 9);
}

describe("holes for pins", () => {
  test("are as wide as asked where a cutter is as wide", () => check(drawer("up-6"), 6, 6, []));
  test("are wound down by a narrower cutter", () =>
    check([{ ...drawer("up-3")[0]!, fluteLength: 30 }], 6, 6, []));
  test("are of another diameter where only a wider cutter is at hand", () =>
    check(drawer("up-8"), 8, 6, ["pin_diameter_changed"]));
  test("are of a drill's diameter where there is only a drill", () =>
    check(drawer("drill-5"), 5, 6, ["pin_diameter_changed"]));
  test("are as deep as the flutes reach", () => check(drawer("compression-6"), 6, 7, [], 10));
  test("are told of where the flutes hardly reach the board", () =>
    check(drawer("up-3"), 6, 2, ["pins_shallow"]));
  test("need not go into the board at all", () => check(drawer("up-6"), 6, 0.5, [], 0));
});
