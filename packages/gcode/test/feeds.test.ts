import { describe, expect, test } from "vitest";
import { depthFactor, handbookChipLoad, leastChipLoad, thinningFactor, type Wood } from "../src/chip-load.ts";
import {
  type Cut,
  type Cutter,
  cuttingData,
  defaultCutters,
  defaultMachine,
  type Machine,
} from "../src/index.ts";
import { cuttingPowerW, rimSpeed } from "../src/power.ts";

describe("the handbook's numbers", () => {
  // One published table in inches, converted: plywood 0.004-0.006, 0.011-0.013, 0.017-0.020, 0.021-0.023.
  function chip(wood: Wood, diameter: number, least: number, most: number): void {
    const load = handbookChipLoad(wood, diameter);
    expect(load.least).toBeCloseTo(least, 3);
    expect(load.most).toBeCloseTo(most, 3);
  }
  test("an eighth of an inch in plywood", () => chip("plywood", 3.175, 0.1016, 0.1524));
  test("a quarter of an inch in plywood", () => chip("plywood", 6.35, 0.2794, 0.3302));
  test("three eighths in board", () => chip("mdf", 9.525, 0.508, 0.5842));
  test("half an inch in hardwood", () => chip("hardwood", 12.7, 0.4826, 0.5334));
  test("between two diameters it runs straight", () => chip("plywood", 4.7625, 0.1905, 0.2413));
  test("below the table it shrinks with the diameter", () => chip("plywood", 1.5875, 0.0508, 0.0762));
  test("above the table it stays", () => chip("plywood", 20, 0.5334, 0.5842));

  test("a deep pass bears less: three quarters at two diameters, half at three", () => {
    // Two published pages: about 25 % less at 2 D, 50 % at 3 D.
    expect([0.5, 1, 2, 3, 4].map((d) => depthFactor(6 * d, 6))).toEqual([1, 1, 0.75, 0.5, 0.5]);
  });
  test("chips of a thin strip are thinner than the feed per tooth", () => {
    // Cutting data C2 (0.6 at 10 %), and the formula h = 2 f √(a/D − (a/D)²): 0.43589, 0.8, 1.
    const factors = [0.05, 0.1, 0.2, 0.5, 1].map((share) => thinningFactor(share * 6, 6));
    [0.43589, 0.6, 0.8, 1, 1].forEach((expected, k) => {
      expect(factors[k]).toBeCloseTo(expected, 5);
    });
  });
  test("a half-inch cutter's rim at 25 000 rpm", () => expect(rimSpeed(12.7, 25_000)).toBeCloseTo(16.624, 3)); // C3
  test("power of a 6 × 6 slot at 3 m/min", () => expect(cuttingPowerW(6, 6, 3000, 35)).toBeCloseTo(63, 9)); // C7
  test("thin cutters rub below 0.03 mm, quarter-inch ones below 0.05", () => {
    expect([2, 3.175, 6.35, 12].map(leastChipLoad)).toEqual([0.03, 0.03, 0.05, 0.05]);
  });
});

const slot: Cut = { kind: "slot", depth: 6 };

function cutter(id: string, changes: Partial<Cutter> = {}, set: Partial<Cutter["set"]> = {}): Cutter {
  const found = defaultCutters().find((c) => c.id === id)!;
  return { ...found, ...changes, set: { ...found.set, ...set } };
}

function machine(changes: Partial<Machine> = {}): Machine {
  return { ...defaultMachine(), ...changes };
}

describe("the sum", () => {
  test("18 000 rpm, two flutes and chips of 0.1 mm make 3600 mm/min", () => {
    // Cutting data C1; a derate that brings the table's middle to 0.1.
    const derate = 0.1 / handbookChipLoad("plywood", 6).mean;
    expect(cuttingData(cutter("up-6"), machine({ derate }), "plywood", slot)).toMatchObject({
      rpm: 18_000,
      feedMmPerMin: 3600,
      chipLoad: 0.1,
    });
  });
  test("every step has its line, with the value it gives", () => {
    const { steps } = cuttingData(cutter("up-6"), machine(), "plywood", slot);
    expect(steps).toEqual([
      "depth of a pass: 6 mm: one diameter (common practice)",
      "chip load of the handbook table: plywood, 6 mm cutter: 0.26 mm to 0.311 mm per tooth, middle 0.285 mm",
      "this machine bears 40 % of it: 0.114 mm per tooth",
      "speed: 18000 rpm: spindle 8000 to 24000, cutter at most 24000",
      "feed in a full slot: 4100 mm/min: 18000 rpm × 2 flutes × 0.114 mm, at most 5000 mm/min",
      "a full slot takes 98 W of the spindle's 800 W (margin 2)",
      "stepover: 2.4 mm: 40 % of the diameter (common practice)",
      "plunge: 1230 mm/min: 30 % of the slot feed (common practice), at most 1500 mm/min",
      "ramps and helices: 50 % of the slot feed (common practice): 2050 mm/min",
    ]);
  });
  test("a finishing pass is faster, and the speed is the same: a program keeps it", () => {
    const [rough, fine] = [slot, { kind: "finishing", depth: 6 } as const].map((cut) =>
      cuttingData(cutter("up-6"), machine({ maxFeedMmPerMin: { xy: 20_000, z: 1500 } }), "plywood", cut),
    );
    expect(fine!.feedMmPerMin / rough!.feedMmPerMin).toBeCloseTo(1 / 0.43589, 2);
    expect(fine!.rpm).toBe(rough!.rpm);
  });
  test("where the feed ends, the spindle slows, so that chips stay thick", () => {
    const data = cuttingData(
      cutter("up-8"),
      machine({ maxFeedMmPerMin: { xy: 3000, z: 1000 } }),
      "plywood",
      slot,
    );
    expect(data.rpm).toBe(9600);
    expect(data.chipLoad).toBeCloseTo(0.4 * handbookChipLoad("plywood", 8).mean, 2);
  });
  test("passes get shallower where the spindle is weak", () => {
    const weak = machine({ spindle: { ...machine().spindle, powerW: 100 } });
    const data = cuttingData(cutter("up-6"), weak, "plywood", slot);
    expect(data.depthPerPass).toBe(3);
    expect(data.findings).toEqual([]);
  });
  test("a compression cutter's tip goes under the veneer in the first pass", () => {
    expect(
      cuttingData(cutter("compression-6", { upCutLength: 7 }), machine(), "plywood", slot).depthPerPass,
    ).toBe(8);
  });
  test("what is set by hand stands and says so", () => {
    const byHand = { rpm: 12_000, feedMmPerMin: 2000, plungeMmPerMin: 300, depthPerPass: 4, stepover: 3 };
    const data = cuttingData(cutter("up-6", {}, byHand), machine(), "plywood", {
      kind: "finishing",
      depth: 6,
    });
    expect(data).toMatchObject(byHand);
    expect(data.steps.filter((line) => line.includes("set by hand"))).toHaveLength(5);
  });
  test("a drill turns slowly and goes down in pecks", () => {
    const data = cuttingData(cutter("drill-5"), machine(), "plywood", { kind: "drilling", depth: 15 });
    expect(data).toMatchObject({ rpm: 8000, depthPerPass: 10, plungeMmPerMin: 440, findings: [] });
  });
  test("the shipped drawer has nothing to complain about on the shipped router", () => {
    for (const one of defaultCutters()) {
      const cut: Cut = {
        kind: one.kind === "drill" ? "drilling" : "slot",
        depth: Math.min(15.3, one.fluteLength),
      };
      expect(cuttingData(one, machine(), "plywood", cut).findings).toEqual([]);
    }
  });
});

describe("what cutter and machine cannot bear", () => {
  function check(one: Cutter, cut: Cut, codes: readonly string[], on: Machine = machine()): void {
    const { findings } = cuttingData(one, on, "plywood", cut);
    expect(findings.map(({ code, severity }) => `${severity} ${code}`)).toEqual(codes);
    for (const { path, message, wayOut } of findings) {
      expect(path).toMatch(new RegExp(`^cutters\\.${one.id}\\.`));
      expect(message).toMatch(/^Cutter .*\.$/);
      expect(wayOut).toMatch(/\.$/);
    }
  }
  test("a feed so slow that the teeth rub", () =>
    check(cutter("up-6", {}, { feedMmPerMin: 800 }), slot, ["warning rubbing"]));
  test("a feed just above rubbing", () => check(cutter("up-6", {}, { feedMmPerMin: 1750 }), slot, []));
  test("a speed over the one on the shank", () =>
    check(cutter("up-6", { maxRpm: 16_000 }, { rpm: 18_000 }), slot, ["error over_speed"]));
  test("a cutter slower than the spindle's slowest", () =>
    check(cutter("up-8", { maxRpm: 6000 }), slot, ["error over_speed"]));
  test("a speed that the spindle has not", () =>
    check(cutter("up-6", {}, { rpm: 6000 }), slot, ["error spindle_range"]));
  test("a rim that flies", () =>
    check(
      cutter("round-3", { diameter: 40, maxRpm: 24_000 }, { rpm: 24_000 }),
      { kind: "clearing", depth: 3, width: 3 },
      ["warning rim_too_fast"],
    ));
  test("a pass deeper than the spindle's margin, and one deeper than its power", () => {
    check(
      cutter("up-6", { fluteLength: 40, holder: null }, { depthPerPass: 38, feedMmPerMin: 4100 }),
      { kind: "slot", depth: 38 },
      ["warning over_power"],
    );
    check(
      cutter("up-8", { fluteLength: 40, holder: null }, { depthPerPass: 40, feedMmPerMin: 5000 }),
      { kind: "slot", depth: 40 },
      ["error over_power"],
    );
  });
  test("the last pass of a deep setting is only as deep as the cut", () =>
    check(cutter("up-6", {}, { depthPerPass: 25 }), { kind: "slot", depth: 6 }, []));
  test("a sheet thicker than the flutes are long", () =>
    check(cutter("up-3"), { kind: "slot", depth: 18 }, ["error flute_too_short"]));
  test("a holder that meets the sheet", () =>
    check(cutter("up-6", { holder: { diameter: 24, stickOut: 12 } }), { kind: "slot", depth: 15 }, [
      "error holder_in_wood",
    ]));
  test("a shallow housing for a compression cutter", () =>
    check(cutter("compression-6"), { kind: "slot", depth: 4 }, [
      "warning compression_first_pass_too_shallow",
    ]));
  test("a compression cutter that goes down in small steps", () =>
    check(cutter("compression-6", {}, { depthPerPass: 3 }), { kind: "slot", depth: 15 }, [
      "warning compression_first_pass_too_shallow",
    ]));
  test("a feed that the machine has not: it runs at what it has", () => {
    const fast = cutter("up-6", {}, { feedMmPerMin: 9000 });
    check(fast, slot, ["warning feed_above_max"]);
    expect(cuttingData(fast, machine(), "plywood", slot).feedMmPerMin).toBe(5000);
  });
  test("all of it at once", () =>
    check(
      cutter("up-3", { maxRpm: 10_000 }, { rpm: 30_000, feedMmPerMin: 600, plungeMmPerMin: 2000 }),
      { kind: "slot", depth: 30 },
      [
        "error over_speed",
        "error spindle_range",
        "warning feed_above_max",
        "warning rubbing",
        "error flute_too_short",
        "error holder_in_wood",
      ],
    ));
});
