import { expect, test } from "vitest";
import type { Move } from "../src/index.ts";
import { withPasses } from "../src/passes.ts";

const at = (x: number, z: number, kind: "rapid" | "line" = "line"): Move =>
  kind === "rapid" ? { kind, to: { x, y: 0, z } } : { kind, to: { x, y: 0, z }, feed: 3000 };

/** The comments, each with the index of the move that it stands before. */
function marks(moves: readonly Move[]): readonly (readonly [number, string])[] {
  let index = 0;
  return withPasses(moves).flatMap((move): (readonly [number, string])[] => {
    if (move.kind === "comment") return [[index, move.text]];
    index++;
    return [];
  });
}

test("two levels are two passes, each marked where it goes down", () =>
  expect(
    marks([at(0, 5, "rapid"), at(0, 0), at(0, -3), at(40, -3), at(40, -6), at(0, -6), at(0, 5, "rapid")]),
  ).toEqual([
    [1, "pass 1 of 2, to 3 mm deep"],
    [4, "pass 2 of 2, to 6 mm deep"],
  ]));
test("a ramp in pieces is one way down", () =>
  expect(
    marks([
      at(0, 5, "rapid"),
      at(10, -1),
      at(20, -2),
      at(30, -3),
      at(0, -3),
      at(10, -4),
      at(20, -6),
      at(0, -6),
    ]),
  ).toEqual([
    [1, "pass 1 of 2, to 3 mm deep"],
    [5, "pass 2 of 2, to 6 mm deep"],
  ]));
test("down again behind a tab is no new pass", () =>
  expect(
    marks([at(0, 5, "rapid"), at(0, -6), at(20, -6), at(20, -4), at(25, -4), at(25, -6), at(40, -6)]),
  ).toEqual([]));
test("a second pocket at the same depth is no new pass", () =>
  expect(
    marks([
      at(0, 5, "rapid"),
      at(0, -3),
      at(40, -3),
      at(40, 5, "rapid"),
      at(80, 5, "rapid"),
      at(80, -3),
      at(120, -3),
    ]),
  ).toEqual([]));
test("one helix all the way is one pass", () =>
  expect(marks([at(0, 5, "rapid"), at(1, -3), at(2, -6), at(3, -9), at(4, -9)])).toEqual([]));
test("a flat stretch over the sheet is no pass", () =>
  expect(
    marks([at(0, 5, "rapid"), at(0, 2), at(5, 2), at(5, -3), at(40, -3), at(40, -6), at(0, -6)]),
  ).toEqual([
    [3, "pass 1 of 2, to 3 mm deep"],
    [5, "pass 2 of 2, to 6 mm deep"],
  ]));
test("a planner's own comments stand", () => {
  const own: readonly Move[] = [
    at(0, 5, "rapid"),
    { kind: "comment", text: "roughing" },
    at(0, -3),
    at(9, -3),
    at(9, -6),
    at(0, -6),
  ];
  expect(withPasses(own)).toBe(own);
});
