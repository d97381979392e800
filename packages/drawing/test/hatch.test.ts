import { expect, test } from "vitest";
import { hatchPattern, hatchSpacing } from "../src/hatch.ts";

test("a recess 2 mm deep is hatched 6 mm apart, one of 10 mm 2 mm apart", () => {
  expect(hatchSpacing(2)).toBe(6);
  expect(hatchSpacing(10)).toBe(2);
});
test("deeper is never hatched wider", () => {
  for (let depth = 0.5; depth < 20; depth += 0.5)
    expect(hatchSpacing(depth + 0.5)).toBeLessThanOrEqual(hatchSpacing(depth));
});
test("the faces are hatched opposite ways", () => {
  expect(hatchPattern("s", { depth: 5, face: "A" })).toContain("rotate(45)");
  expect(hatchPattern("s", { depth: 5, face: "B" })).toContain("rotate(-45)");
});
