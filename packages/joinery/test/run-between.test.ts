import { circle, lengthOf, rectangle } from "@dryfit/geometry";
import { expect, test } from "vitest";
import { runBetween } from "../src/run-between.ts";

const box = rectangle({ x: 0, y: 0 }, { x: 100, y: 50 });

test("one side", () => {
  const run = runBetween(box, { x: 0, y: 0 }, { x: 100, y: 0 });
  expect(run.vertices.map(({ x, y }) => [x, y])).toEqual([
    [0, 0],
    [100, 0],
  ]);
});
test("over the loop's first corner", () => {
  const run = runBetween(box, { x: 0, y: 20 }, { x: 30, y: 0 });
  expect(run.vertices.map(({ x, y }) => [x, y])).toEqual([
    [0, 20],
    [0, 0],
    [30, 0],
  ]);
});
test("the other way round is the rest of the loop", () => {
  expect(lengthOf(runBetween(box, { x: 30, y: 0 }, { x: 0, y: 20 }))).toBeCloseTo(300 - 50, 9);
});
test("a piece of an arc stays an arc", () => {
  const run = runBetween(circle({ x: 0, y: 0 }, 10), { x: 10, y: 0 }, { x: 0, y: 10 });
  expect(lengthOf(run)).toBeCloseTo(5 * Math.PI, 9);
  expect(run.vertices).toHaveLength(2);
});
