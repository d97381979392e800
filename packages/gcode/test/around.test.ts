import { contains, distanceTo, type Loop, place, rectangle } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { describe, expect, test } from "vitest";
import {
  type AirProgram,
  CONTROLLERS,
  calibrated,
  defaultCutters,
  defaultMachine,
  type Flip,
  type Machine,
  type Program,
  screwPlaces,
  spottingProgram,
  timingPrograms,
  walkProgram,
} from "../src/index.ts";
import { estimateOf } from "../src/timing.ts";

const box = (left: number, bottom: number, width: number, height: number): Loop<"sheet"> =>
  rectangle<"sheet">({ x: left, y: bottom }, { x: left + width, y: bottom + height });

const thickness = { min: 14.6, mean: 14.8, max: 15 };

/** A part of 200 × 150, face A up. */
const panel = {
  id: "panel",
  title: "Panel",
  thickness,
  outline: rectangle({ x: 0, y: 0 }, { x: 200, y: 150 }),
  roundOvers: [],
} as unknown as Part;

const clamp = { outer: box(1160, 280, 60, 50), holes: [] };

function sheet(
  spots: readonly (readonly [number, number])[],
  size: readonly [number, number] = [1220, 610],
): Sheet {
  return {
    id: "sheet-1",
    stock: {
      id: "ply",
      material: "ply",
      size,
      outline: null,
      grain: "x",
      count: null,
      price: null,
      keepOuts: [clamp],
    },
    parts: spots.map(([x, y]) => ({
      part: "panel",
      placement: { flip: false, quarters: 0, angle: 0, shift: { x, y } },
    })),
  };
}

const two = sheet([
  [20, 20],
  [500, 300],
]);

/** The X, Y, Z words of the lines that hold any, with what is modal filled in. */
function placesIn({ text }: AirProgram | Program): { x: number; y: number; z: number; line: string }[] {
  let at = { x: Number.NaN, y: Number.NaN, z: Number.NaN };
  return text.split("\n").flatMap((line) => {
    if (/^[(;%]/.test(line)) return [];
    const words = [...line.matchAll(/([XYZ])(-?[\d.]+)/g)];
    for (const [, letter, value] of words) at = { ...at, [letter!.toLowerCase()]: Number(value) };
    return words.length === 0 ? [] : [{ ...at, line }];
  });
}

describe("a walk in the air", () => {
  const walk = (setup: "A" | "B", flip: Flip | null, machine: Machine = defaultMachine()): AirProgram =>
    walkProgram({
      name: "tidepool",
      sheet: two,
      setup,
      flip,
      thickness,
      machine,
      cutters: defaultCutters().slice(0, 3),
    });

  /** Places near the sheet; between them it flies over whatever stands there, 10 high and 5 more. */
  const walked = (program: AirProgram) => {
    const places = placesIn(program).slice(1);
    const low = Math.min(...places.map(({ z }) => z));
    expect(new Set(places.map(({ z }) => Math.round(z - low)))).toEqual(new Set([0, 10]));
    return places;
  };

  test("it goes round the sheet and round the clamp, over the clamp between", () => {
    const places = walked(walk("A", null));
    const corners = places.map(({ x, y, z }) => [x, y, z]);
    expect(corners.slice(0, 8)).toEqual([
      [0, 0, 29.8],
      [0, 0, 19.8],
      [1220, 0, 19.8],
      // The clamp stands on the right edge.
      [1220, 0, 29.8],
      [1220, 610, 29.8],
      [1220, 610, 19.8],
      [0, 610, 19.8],
      [0, 0, 19.8],
    ]);
    // A 6 mm cutter passes the clamp 3 mm off.
    const around = places.slice(9).filter(({ z }) => z === 19.8);
    expect(Math.min(...around.map(({ x }) => x))).toBeCloseTo(1157, 2);
    expect(Math.min(...around.map(({ y }) => y))).toBeCloseTo(277, 2);
  });
  test("no spindle turns", () => expect(walk("A", null).text).not.toMatch(/^[^(\n]*M3(?!\d)/m));
  test("on the turned sheet the clamp is where it has come to lie", () => {
    const places = walked(walk("B", { axis: "y", at: 610 })).slice(9);
    const around = places.slice(places.findIndex(({ x }) => x < -1));
    expect(Math.min(...around.map(({ x }) => x))).toBeCloseTo(-3, 2);
    expect(Math.max(...around.map(({ x }) => x))).toBeCloseTo(63, 2);
  });
  test("with zero on the sheet, it walks 5 mm over zero", () => {
    const places = placesIn(walk("A", null, { ...defaultMachine(), zZero: "top" }));
    expect(new Set(places.map(({ z }) => z))).toEqual(new Set([5, 15]));
  });
  test("its name says what it is", () => expect(walk("B", null).file).toBe("sheet-1-b-walk.nc"));
  test("its comments say so too", () =>
    expect(walk("A", null).text.split("\n").slice(0, 2)).toEqual([
      "(tidepool: sheet-1, face A up, a walk in the air. Cuts nothing.)",
      "(Goes round the sheet's edge, 5 mm over it, then round one keep-out,)",
    ]));
});

describe("screws in waste", () => {
  test("they keep off parts, edges and clamps, and stand apart", () => {
    const places = screwPlaces(two, [panel]);
    expect(places.length).toBeGreaterThan(5);
    for (const p of places) {
      for (const { placement } of two.parts) {
        const lower = place(placement, { x: 0, y: 0 });
        const outline = box(lower.x, lower.y, 200, 150);
        expect(contains(outline, p)).toBe("outside");
        expect(distanceTo(outline, p)).toBeGreaterThanOrEqual(14);
      }
      expect(distanceTo(clamp.outer, p)).toBeGreaterThanOrEqual(12);
      expect(contains(clamp, p)).toBe("outside");
      expect(distanceTo(box(0, 0, 1220, 610), p)).toBeGreaterThanOrEqual(12);
    }
    places.forEach((p, k) => {
      for (const q of places.slice(k + 1))
        expect(Math.hypot(p.x - q.x, p.y - q.y)).toBeGreaterThanOrEqual(250);
    });
  });
  test("they stand farther off a part whose edges a cutter makes", () => {
    const edged = { ...panel, roundOvers: [{ by: "cutter" }] } as unknown as Part;
    for (const p of screwPlaces(two, [edged]))
      for (const { placement } of two.parts) {
        const lower = place(placement, { x: 0, y: 0 });
        expect(distanceTo(box(lower.x, lower.y, 200, 150), p)).toBeGreaterThanOrEqual(22);
      }
  });
  test("the same sheet, the same screws", () =>
    expect(screwPlaces(two, [panel])).toEqual(screwPlaces(two, [panel])));
  test("a full sheet has no room for any", () => {
    const full = sheet([[10, 10]], [220, 170]);
    expect(screwPlaces(full, [panel])).toEqual([]);
    const { program, findings } = spottingProgram(job(full), "sheet-1", "drill-3");
    expect(program).toBeNull();
    expect(findings.map(({ code, severity }) => `${severity} ${code}`)).toEqual([
      "warning no_room_for_screws",
    ]);
  });
  test("the program that marks them drills 2 mm deep at each", () => {
    const { program, findings } = spottingProgram(job(two), "sheet-1", "drill-3");
    expect(findings).toEqual([]);
    expect(program!.file).toBe("sheet-1-a-screws.nc");
    expect(program!.deepest).toBeCloseTo(12.8, 9);
    const low = placesIn(program!).filter(({ z }) => z < 13);
    expect(low.map(({ x, y }) => ({ x, y }))).toEqual(screwPlaces(two, [panel]));
  });
  const job = (on: Sheet) => ({
    name: "tidepool",
    parts: [panel],
    sheets: [on],
    flips: {},
    plans: [],
    machine: defaultMachine(),
    cutters: defaultCutters(),
    wood: "plywood" as const,
  });
});

describe("timing the machine", () => {
  const machine = defaultMachine();
  const truth = { acceleration: 0.62, blockSeconds: 0.0124 };

  test("both programs take long enough for a stopwatch, and no one's patience", () => {
    const { corners, steps } = timingPrograms(machine);
    for (const { seconds } of [corners, steps]) {
      expect(seconds).toBeGreaterThan(5);
      expect(seconds).toBeLessThan(120);
    }
    expect(steps.text).toContain("(Take the time from the first move to the last:");
  });
  test("what a slower machine took gives back how slow it is", () => {
    const measured = {
      corners: estimateOf("corners", machine)(truth),
      steps: estimateOf("steps", machine)(truth),
    };
    const timing = calibrated(machine, measured)!;
    expect(timing.acceleration).toBeCloseTo(truth.acceleration, 3);
    expect(timing.blockSeconds).toBeCloseTo(truth.blockSeconds, 5);
  });
  test("one measure alone changes one value", () => {
    const corners = estimateOf("corners", machine)({ ...truth, blockSeconds: 0 });
    expect(calibrated(machine, { corners, steps: null })).toEqual({ acceleration: 0.62, blockSeconds: 0 });
  });
  test("with the new timing the estimate is what was measured", () => {
    const timing = calibrated(machine, { corners: 100, steps: 60 })!;
    expect(estimateOf("corners", machine)(timing)).toBeCloseTo(100, 1);
    expect(estimateOf("steps", machine)(timing)).toBeCloseTo(60, 1);
  });
  test("a machine faster than its own top feed cannot be", () => {
    expect(calibrated(machine, { corners: 3, steps: null })).toBeNull();
    expect(calibrated(machine, { corners: null, steps: 2 })).toBeNull();
  });
  test("they are the same whatever the controller, but for its form", () => {
    const full = timingPrograms({ ...machine, controller: CONTROLLERS.full });
    expect(full.steps.seconds).toBeCloseTo(timingPrograms(machine).steps.seconds, 6);
  });
});
