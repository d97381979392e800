import { contrast, dark, light } from "@dryfit/drawing";
import { expect, test } from "vitest";

function check(text: string, ground: string, least: number) {
  expect(contrast(text, ground)).toBeGreaterThanOrEqual(least);
}

// WCAG 2.1: 4.5 for text, 3 for graphics that must be understood.
test("ink on paper can be read", () => check(light.ink, light.paper, 4.5));
test("ink on dark paper can be read", () => check(dark.ink, dark.paper, 4.5));
test("a recess's edge stands out from the paper", () => check(light.recess, light.paper, 3));
test("a recess's edge stands out from dark paper", () => check(dark.recess, dark.paper, 3));
test("black on white is 21 to 1", () => expect(contrast("#000000", "#FFFFFF")).toBeCloseTo(21, 6));
test("the order of two colours does not matter", () =>
  expect(contrast(light.ink, light.paper)).toBe(contrast(light.paper, light.ink)));
