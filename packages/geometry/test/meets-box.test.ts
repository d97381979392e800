import fc from "fast-check";
import { expect, test } from "vitest";
import { meetsBox } from "../src/meets-box.ts";

const box = { min: { x: 0, y: 0 }, max: { x: 40, y: 20 } };
const at = (x: number, y: number) => ({ x, y });

test.each([
  ["ends inside", at(-5, 10), at(5, 10), true],
  ["lies inside", at(5, 5), at(30, 15), true],
  ["goes through", at(-5, 10), at(50, 12), true],
  ["cuts a corner off", at(-5, 10), at(15, -10), true],
  ["touches a corner", at(-10, 10), at(10, -10), true],
  ["runs along a side", at(-5, 20), at(50, 20), true],
  ["passes a corner by", at(-11, 10), at(10, -11), false],
  ["ends before it", at(-9, 10), at(-1, 10), false],
  ["stands beside it", at(41, -5), at(41, 25), false],
  ["is one point in it", at(1, 1), at(1, 1), true],
])("a line that %s", (_, a, b, meets) => {
  expect(meetsBox(a, b, box)).toBe(meets);
  expect(meetsBox(b, a, box)).toBe(meets);
});

test("a line of which a point lies in the box meets it", () => {
  const near = fc.record({ x: fc.integer({ min: -60, max: 100 }), y: fc.integer({ min: -60, max: 80 }) });
  fc.assert(
    fc.property(near, near, (a, b) => {
      const steps = Array.from({ length: 101 }, (_, i) =>
        at(a.x + ((b.x - a.x) * i) / 100, a.y + ((b.y - a.y) * i) / 100),
      );
      if (steps.some(({ x, y }) => x >= 0 && x <= 40 && y >= 0 && y <= 20))
        expect(meetsBox(a, b, box)).toBe(true);
    }),
    { seed: 1 },
  );
});
