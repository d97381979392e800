import fc from "fast-check";
import { expect, test } from "vitest";
import { arccosine, arcsine, arctangent } from "../src/arctangent.ts";
import { logarithm } from "../src/logarithm.ts";
import { tangentOf } from "../src/sine.ts";

/** The last place of a number, of twice its size at most. */
const lastPlace = (value: number): number => Math.abs(value) * 2 ** -52;
const share = fc.double({ min: -1, max: 1, noNaN: true });
const length = fc.double({ min: -3000, max: 3000, noNaN: true });

test("angles agree with the engine's own to the last places", () => {
  fc.assert(
    fc.property(length, length, (y, x) => {
      const angle = Math.atan2(y, x);
      expect(Math.abs(arctangent(y, x) - angle)).toBeLessThanOrEqual(3 * lastPlace(angle));
    }),
  );
  fc.assert(
    fc.property(share, (part) => {
      expect(arcsine(part)).toBeCloseTo(Math.asin(part), 14);
      expect(arccosine(part)).toBeCloseTo(Math.acos(part), 14);
      expect(tangentOf(part)).toBeCloseTo(Math.tan(part), 14);
    }),
  );
});

test("directions along the axes and halfway are exact, and keep their signs", () => {
  const ends = [0, -0, 1, -1, 5];
  for (const y of ends) for (const x of ends) expect([y, x, arctangent(y, x)]).toEqual([y, x, exact(y, x)]);
  expect([arcsine(1), arccosine(-1), arcsine(2), arccosine(1)]).toEqual([
    Math.PI / 2,
    Math.PI,
    Number.NaN,
    0,
  ]);

  /** The engine's own is exact there by the language's word (ECMA-262, 21.3.2.8), but for slopes of 5. */
  function exact(y: number, x: number): number {
    return Math.abs(y) === Math.abs(x) || y === 0 || x === 0 ? Math.atan2(y, x) : arctangent(y, x);
  }
});

test("logarithms agree with the engine's own to the last places", () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-12, max: 1e12, noNaN: true }), (value) => {
      expect(Math.abs(logarithm(value) - Math.log(value))).toBeLessThanOrEqual(
        1e-15 + 3 * lastPlace(Math.log(value)),
      );
    }),
  );
  expect([logarithm(1), logarithm(0), logarithm(-1)]).toEqual([0, Number.NEGATIVE_INFINITY, Number.NaN]);
});
