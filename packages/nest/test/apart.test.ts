import { apartBound } from "@dryfit/nest";
import { expect, test } from "vitest";

type Size = readonly [number, number];

/** Boards for sheets of 100 × 100, not to be turned. */
function check(sizes: readonly Size[], expected: number): void {
  expect(apartBound(sizes, [100, 100])).toBe(expected);
}

test("no boards need no sheet", () => check([], 0));
test("boards that go beside one another share a sheet", () =>
  check(
    [
      [60, 90],
      [40, 90],
    ],
    1,
  ));
test("boards that go above one another share a sheet", () =>
  check(
    [
      [90, 50],
      [90, 50],
    ],
    1,
  ));
test("boards over half as wide and as high each take a sheet", () =>
  check(
    [
      [51, 51],
      [51, 51],
      [51, 51],
      [20, 20],
    ],
    3,
  ));
test("a small board stays off one that leaves it neither width nor height", () =>
  check(
    [
      [90, 90],
      [20, 20],
      [80, 80],
    ],
    2,
  ));
test("boards that meet crosswise share a sheet in pairs only where both ways are barred", () =>
  check(
    [
      [95, 30],
      [30, 95],
      [95, 30],
    ],
    2,
  ));
