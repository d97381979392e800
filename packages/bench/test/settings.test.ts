import { describe, expect, test } from "vitest";
import {
  grooveFences,
  type HandCutter,
  passesTo,
  type Rebate,
  rebateSetting,
  spacersFor,
} from "../src/index.ts";

const cutter = (given: Partial<HandCutter>): HandCutter => ({
  id: "c",
  kind: "straight",
  diameter: 16,
  cuttingLength: 25,
  reach: 45,
  arbor: null,
  depthPerPass: 4,
  bearings: [],
  ...given,
});

describe("strips beside a straightedge", () => {
  const check = (width: number, diameter: number, expected: readonly number[]) =>
    expect(spacersFor(width, diameter).map((v) => Number(v.toFixed(3)))).toEqual(expected);
  test("a slot as wide as the cutter needs none", () => check(6, 6, [0]));
  test("7.2 with a cutter of 6 needs one of 1.2, then none", () => check(7.2, 6, [1.2, 0]));
  test("15 with a cutter of 6 takes three passes that overlap", () => check(15, 6, [9, 4.5, 0]));
  test("a cutter wider than the slot is a broken promise", () =>
    expect(() => spacersFor(6, 6.35)).toThrow(RangeError));
});

test("on the table the wall nearest the fence is cut first: 7.7, then 8.9 for 7.2 with a cutter of 6", () =>
  expect(grooveFences([7.7, 14.9], 6).map((v) => Number(v.toFixed(3)))).toEqual([7.7, 8.9]));

test("passes are equal and none deeper than asked: 7.2 in bites of 3", () =>
  expect(passesTo(7.2, 3).map((v) => Number(v.toFixed(3)))).toEqual([2.4, 4.8, 7.2]));

describe("a rebate that leaves a tongue of 7 on a sheet of 14.8", () => {
  const even: Rebate = {
    tongue: 7,
    length: 6.8,
    thickness: { min: 14.75, mean: 14.8, max: 14.85 },
    air: 0.1,
    tall: 350,
  };
  const uneven: Rebate = { ...even, thickness: { min: 14.4, mean: 14.8, max: 15.2 } };
  const disc = cutter({ id: "disc", kind: "slotting", diameter: 40, cuttingLength: 5, arbor: 12 });

  test("lies rebated face down where the sheet is even: 7.8 high in two passes, 6.8 from the fence", () => {
    const setting = rebateSetting(even, [cutter({})], true)!;
    expect(setting).toMatchObject({ way: "lying", fences: [6.8], measured: "far" });
    expect(setting.heights.map((v) => Number(v.toFixed(3)))).toEqual([3.9, 7.8]);
    expect(setting.tongue.map((v) => Number(v.toFixed(3)))).toEqual([6.95, 7.05]);
  });
  test("stands on the table with its tongue's face on the fence where the sheet is not", () => {
    const setting = rebateSetting(uneven, [cutter({})], true)!;
    expect(setting).toMatchObject({ way: "standing", heights: [6.8], tongue: [7, 7], measured: "near" });
    expect(setting.fences.at(-1)).toBe(7);
  });
  test("lies all the same where it is too tall to stand, and the tongue varies", () => {
    const setting = rebateSetting({ ...uneven, tall: 554 }, [cutter({})], true)!;
    expect(setting.way).toBe("lying");
    expect(setting.tongue[1] - setting.tongue[0]).toBeCloseTo(0.8, 9);
  });
  test("is cut tongue face down under a slotting disc: its lower edge comes down to 7", () => {
    const setting = rebateSetting(uneven, [cutter({}), disc], true)!;
    expect(setting).toMatchObject({ way: "disc", tongue: [7, 7], fences: [6.8] });
    expect(setting.heights.map((v) => Number(v.toFixed(3)))).toEqual([11.1, 7]);
  });
  test("needs more disc than arbor: 6.8 deep takes 25.6 on an arbor of 12", () =>
    expect(rebateSetting(even, [{ ...disc, diameter: 25 }], true)).toBeNull());
  test("is cut by hand where there is no table", () =>
    expect(rebateSetting(even, [cutter({})], false)).toMatchObject({ way: "hand" }));
  test("cannot be cut by hand with a cutter narrower than it", () =>
    expect(rebateSetting(even, [cutter({ diameter: 6 })], false)).toBeNull());
});
