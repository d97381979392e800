import {
  areaOf,
  CUT_MM,
  difference,
  offset,
  point,
  type Region,
  rectangle,
  roundedRectangle,
} from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { describe, expect, test } from "vitest";
import type { Cutter } from "../src/cutter.ts";
import { defaultCutters, defaultMachine } from "../src/default-shop.ts";
import { cuttingData } from "../src/feeds.ts";
import { planSheet } from "../src/plan.ts";
import type { PlanOptions } from "../src/plan-options.ts";
import { swathAt } from "./swath.ts";

const MACHINE = defaultMachine();
const [UP_6, UP_3] = ["up-6", "up-3"].map((id) => defaultCutters().find((cutter) => cutter.id === id)!) as [
  Cutter,
  Cutter,
];
const THICKNESS = { min: 15, mean: 15, max: 15 };

/** A board with a recess 8 mm deep on a sheet, as planned: the recess's operations in order, and the findings. */
function recessed(
  region: Region<"panel">,
  cutters: { readonly own: readonly Cutter[]; readonly roughers?: readonly Cutter[] },
  options: Partial<PlanOptions> = {},
) {
  const part: Part = {
    id: "board",
    panel: "board",
    title: "board",
    material: "plywood",
    thickness: THICKNESS,
    outline: rectangle(point(0, 0), point(300, 200)),
    features: [{ kind: "recess", id: "recess", face: "A", region, depth: 8, purpose: "mortise" }],
    roundOvers: [],
    grain: "x",
    faceNames: { A: "inside", B: "outside" },
    mating: [],
  };
  const sheet: Sheet = {
    id: "sheet-1",
    stock: {
      id: "sheet",
      material: "plywood",
      size: [340, 240],
      outline: null,
      grain: "x",
      count: null,
      price: null,
      keepOuts: [],
    },
    parts: [
      { part: "board", placement: { quarters: 0, angle: 0, flip: false, shift: point(20, 20) } as never },
    ],
  };
  const { setups, findings } = planSheet({
    sheet,
    parts: [part],
    cutters: cutters.own,
    roughers: cutters.roughers ?? [],
    machine: MACHINE,
    options,
    data: (cutter, _, cut) => cuttingData(cutter, MACHINE, "plywood", cut),
  });
  return { operations: setups[0]!.operations.filter(({ kind }) => kind === "recess"), findings };
}

const wide: Region<"panel"> = { outer: roundedRectangle(point(40, 40), point(260, 160), 1.6), holes: [] };
const drawer = { own: [UP_3], roughers: [UP_6] };

describe("a recess with small corners", () => {
  test("is roughed by the larger cutter where that saves more than the change costs", () => {
    const { operations, findings } = recessed(wide, drawer);
    expect(findings).toEqual([]);
    expect(operations.map(({ cutter, cleared }) => [cutter, cleared!.method])).toEqual([
      ["up-6", "contour"],
      ["up-3", "rest"],
    ]);
    const alone = recessed(wide, drawer, { rest: "never" }).operations;
    expect(alone.map(({ cutter }) => cutter)).toEqual(["up-3"]);
    const minutes = (list: typeof operations) => list.reduce((sum, { cleared }) => sum + cleared!.minutes, 0);
    // Two minutes are what a change by hand is reckoned at.
    expect(minutes(operations) + 2).toBeLessThan(minutes(alone));
  });

  test("is left to one cutter where the change would take longer", () => {
    const small: Region<"panel"> = { outer: roundedRectangle(point(40, 40), point(80, 70), 1.6), holes: [] };
    expect(recessed(small, drawer).operations.map(({ cutter }) => cutter)).toEqual(["up-3"]);
    expect(recessed(small, drawer, { rest: "always" }).operations.map(({ cutter }) => cutter)).toEqual([
      "up-6",
      "up-3",
    ]);
  });

  test("is left to one cutter where a limit to the engagement is asked for", () => {
    const options = { rest: "always", clearing: { method: "auto", engagement: 1.3 } } as const;
    expect(recessed(wide, drawer, options).operations.map(({ cutter }) => cutter)).toEqual(["up-3"]);
  });

  test("with a neck that the larger cutter cannot pass is cleared there by the smaller one", () => {
    const ears = (x: number): Region<"panel"> => ({
      outer: roundedRectangle(point(x, 40), point(x + 60, 120), 1.6),
      holes: [],
    });
    const neck: Region<"panel"> = { outer: rectangle(point(100, 77), point(180, 82)), holes: [] };
    const joined = [ears(45), ears(175), neck];
    const { operations } = recessed(unionOf(joined), drawer, { rest: "always" });
    expect(operations.map(({ cutter }) => cutter)).toEqual(["up-6", "up-3"]);
    check(unionOf(joined), operations);
  });

  test("is cleared all of it and no more, whatever is left for the last pass", () => {
    for (const finish of [null, { allowance: 0.5, roughing: "conventional" as const }])
      check(wide, recessed(wide, drawer, { rest: "always", finish }).operations);
  });
});

/** Together the cutters take all that the smaller one reaches, and neither takes any wood beside the recess. */
function check(region: Region<"panel">, operations: ReturnType<typeof recessed>["operations"]): void {
  const placed: Region = {
    outer: {
      ...region.outer,
      vertices: region.outer.vertices.map((v) => ({ ...v, x: v.x + 20, y: v.y + 20 })),
    },
    holes: [],
  };
  const gone = operations.flatMap(({ moves, cutter }) =>
    swathAt(moves, (cutter === "up-6" ? UP_6 : UP_3).diameter / 2, -8 + 1e-9),
  );
  const reachable = offset(offset([placed], -UP_3.diameter / 2), UP_3.diameter / 2);
  expect(isNarrow(difference(reachable, gone)), "left").toBe(true);
  expect(isNarrow(difference(gone, [placed])), "gouged").toBe(true);
  const [rough] = operations;
  const first = swathAt(rough!.moves, UP_6.diameter / 2, -8 + 1e-9);
  expect(isNarrow(difference(reachable, first)), "the larger cutter alone leaves the corners").toBe(false);
}

const isNarrow = (regions: readonly Region[]): boolean => areaOf(offset([...regions], -CUT_MM / 2)) === 0;

function unionOf(regions: readonly Region<"panel">[]): Region<"panel"> {
  return offset([...regions], 0.001)[0]!;
}
