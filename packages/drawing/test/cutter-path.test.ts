import { expect, test } from "vitest";
import { passWeight, runsOf, strokesOf } from "../src/cutter-path.ts";
import { feed, rapid, roundTrip } from "./pictures.ts";

const at = (x: number, y: number, z: number) => ({ x, y, z });

function passes(motions: Parameters<typeof runsOf>[0]): readonly number[] {
  return strokesOf(runsOf(motions)).map(({ pass }) => pass);
}

test("cuts between two rapids are one run", () =>
  expect(
    runsOf([...roundTrip(at(0, 0, 0), at(9, 9, 0), [5]), ...roundTrip(at(20, 0, 0), at(29, 9, 0), [5])]),
  ).toHaveLength(2));

test("one level is one pass", () => expect(passes(roundTrip(at(0, 0, 0), at(9, 9, 0), [5]))).toEqual([1]));

test("passes over the same line are drawn once, as the deepest", () =>
  expect(passes(roundTrip(at(0, 0, 0), at(9, 9, 0), [10, 5, 0]))).toEqual([3]));

test("a plunge is no line on the sheet", () =>
  expect(passes([rapid(at(0, 0, 9), at(5, 5, 9)), feed(at(5, 5, 9), at(5, 5, 0))])).toEqual([]));

test("a line left out by the second pass keeps its first", () => {
  const motions = [
    feed(at(0, 0, 5), at(9, 0, 5)),
    feed(at(9, 0, 5), at(9, 9, 5)),
    feed(at(9, 9, 5), at(0, 0, 0)),
    feed(at(0, 0, 0), at(9, 0, 0)),
  ];
  expect(passes(motions)).toEqual([1, 2]);
});

test("lines grow heavier from pass to pass", () => {
  expect(passWeight(1)).toBe(0.18);
  expect(passWeight(2)).toBeGreaterThan(passWeight(1));
});
