import { distanceTo, placement, point, type Region, rectangle } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { describe, expect, test } from "vitest";
import {
  cuttingData,
  defaultCutters,
  defaultMachine,
  type Machine,
  type Operation,
  planSheet,
} from "../src/index.ts";

const MACHINE = { ...defaultMachine(), keepOutHeight: 8 };
const CUTTERS = defaultCutters().filter(({ diameter }) => diameter <= 6.05);

const PANEL: Part = {
  id: "panel",
  panel: "panel",
  title: "Panel",
  material: "plywood",
  thickness: { min: 15, mean: 15, max: 15 },
  outline: rectangle(point(0, 0), point(300, 200)),
  features: [
    { kind: "bore", id: "left", face: "A", at: point(20, 100), diameter: 3.5, depth: null },
    { kind: "bore", id: "right", face: "A", at: point(280, 100), diameter: 3.5, depth: null },
  ],
  roundOvers: [],
  grain: "free",
  faceNames: { A: "inside", B: "outside" },
  mating: [],
};

/** A panel at (100, 100) of a sheet on which something stands. */
function plan(zone: Region<"sheet">, machine: Machine = MACHINE) {
  const sheet: Sheet = {
    id: "sheet-1",
    stock: {
      id: "sheet",
      material: "plywood",
      size: [600, 400],
      outline: null,
      grain: "x",
      count: null,
      price: null,
      keepOuts: [zone],
    },
    parts: [{ part: "panel", placement: placement(point(100, 100)) }],
  };
  return planSheet({
    sheet,
    parts: [PANEL],
    cutters: CUTTERS,
    machine,
    data: (cutter, _material, cut) => cuttingData(cutter, machine, "plywood", cut),
  });
}

const box = (x0: number, y0: number, x1: number, y1: number): Region<"sheet"> => ({
  outer: rectangle(point<"sheet">(x0, y0), point(x1, y1)),
  holes: [],
});

/** Every place of a rapid, finely, that is lower than what stands on the sheet. */
function lowRapids(operations: readonly Operation[]): { x: number; y: number }[] {
  const places: { x: number; y: number }[] = [];
  let at = { x: 0, y: 0, z: 13 };
  for (const move of operations.flatMap(({ moves }) => moves)) {
    if (move.kind === "comment") continue;
    const to = move.kind === "drill" ? { ...move.at, z: at.z } : move.to;
    for (let i = 0; i <= 50 && move.kind === "rapid"; i++) {
      const [t, u] = [i / 50, 1 - i / 50];
      if (at.z * u + to.z * t < 8 - 1e-9) places.push({ x: at.x * u + to.x * t, y: at.y * u + to.y * t });
    }
    at = to;
  }
  return places;
}

describe("what must be kept clear of", () => {
  test("is flown over, at any time and between any two cuts", () => {
    // A clamp in the panel's middle: between its two screw holes.
    const zone = box(240, 180, 260, 220);
    const [setup] = plan(zone).setups;
    const low = lowRapids(setup!.operations);
    expect(low.length).toBeGreaterThan(0);
    for (const p of low) expect(distanceTo(zone.outer, p)).toBeGreaterThan(3);
    for (const { moves } of setup!.operations) {
      const heights = [moves[0]!, moves.at(-1)!].map((move) => (move.kind === "rapid" ? move.to.z : null));
      // 8 high and 5 of air.
      expect(heights).toEqual([13, 13]);
    }
  });
  test("is told of where a cut would run into it, with the place and a way out", () => {
    const { findings } = plan(box(405, 150, 430, 170));
    expect(findings).toMatchObject([{ code: "cut_in_keep_out", severity: "error", path: "panel/outline" }]);
    expect(findings[0]!.message).toContain("the cutter comes 1 mm into keep-out 1");
    expect(findings[0]!.wayOut).toContain("sheet.web");
  });
  test("does not trouble the collet nut where it passes above", () =>
    expect(plan(box(407, 150, 430, 170)).findings).toEqual([]));
  test("is told of where it stands so high that the collet nut meets it", () => {
    const { findings } = plan(box(407, 150, 430, 170), { ...MACHINE, keepOutHeight: 40 });
    expect(findings[0]!.message).toContain("the collet nut comes");
  });
});
