import {
  CUT_MM,
  difference,
  offset,
  pathOf,
  point,
  type Region,
  rectangle,
  roundedRectangle,
  sweep,
  union,
} from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { SLOT_MM, slotLines } from "../src/clear-slot.ts";

const solid = (outer: Region["outer"]): Region => ({ outer, holes: [] });

/** A 6 mm cutter goes down every line, and round wherever else it gets in: all is gone then, and nothing beside it. */
function check(pocket: readonly Region[], lines: number): void {
  const found = slotLines(pocket, 3);
  expect(found).toHaveLength(lines);
  const slots = sweep(found.map(pathOf), 3);
  const cut = union([...slots, ...offset(offset([...pocket], -3), 3)]);
  expect(offset(difference([...pocket], cut), -CUT_MM / 2)).toEqual([]);
  expect(offset(difference(slots, [...pocket]), -SLOT_MM)).toEqual([]);
}

describe("a groove as wide as the cutter", () => {
  const groove = solid(roundedRectangle(point(0, 0), point(300, 6), 2.9999));
  const room = (x: number) => solid(roundedRectangle(point(x, -20), point(x + 14, 26), 3));
  test("by itself is one line", () => check([groove], 1));
  test("that a wider housing crosses at one end is a line beside it", () =>
    check(union([groove, room(0)]), 1));
  test("between the housings of two rails is a line from one to the other", () =>
    check(union([groove, room(0), room(286)]), 1));
  test("that a housing crosses halfway is two lines", () => check(union([groove, room(140)]), 2));
});

test("what is wider or narrower than the cutter has no such line", () => {
  check([solid(roundedRectangle(point(0, 0), point(80, 6.02), 3))], 0);
  expect(slotLines([solid(rectangle(point(0, 0), point(80, 5.98)))], 3)).toEqual([]);
});
