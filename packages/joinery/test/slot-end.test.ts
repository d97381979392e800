import { expect, test } from "vitest";
import { slotEnd } from "../src/slot-end.ts";

function check(radius: number, clearance: number, expected: number): void {
  expect(slotEnd(radius, clearance)).toBeCloseTo(expected, 4);
}

// Derived: r − √(r² − (r − c)²), the corner of a square tongue against the corner's circle.
test("a tongue stays 2.2319 short of the end that a 6 mm cutter leaves", () => check(3, 0.1, 2.2319));
test("a tongue stays 1.3755 short of the end that a 4 mm cutter leaves", () => check(2, 0.1, 1.3755));
test("without air a tongue stays a whole radius short", () => check(3, 0, 3));
test("with as much air as radius a tongue may touch the end", () => check(3, 3, 0));
test("with more air than radius a tongue may touch the end", () => check(1, 2, 0));
