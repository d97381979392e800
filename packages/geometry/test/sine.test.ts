import fc from "fast-check";
import { expect, test } from "vitest";
import { cosine, sine } from "../src/sine.ts";

const angles = fc.double({ min: -1000, max: 1000, noNaN: true });
/** One unit in the last place of numbers up to 1. */
const LAST_PLACE = 2 ** -53;

test("sine and cosine agree with the engine's own to the last place but one", () => {
  fc.assert(
    fc.property(angles, (angle) => {
      expect(Math.abs(sine(angle) - Math.sin(angle))).toBeLessThanOrEqual(2 * LAST_PLACE);
      expect(Math.abs(cosine(angle) - Math.cos(angle))).toBeLessThanOrEqual(2 * LAST_PLACE);
    }),
  );
});

test("close to a quarter turn the little that is left keeps its digits", () => {
  // π to 33 digits less the double nearest to it, and to π / 2. Source: the expansion of π.
  expect(sine(Math.PI)).toBe(1.2246467991473532e-16);
  expect(cosine(Math.PI / 2)).toBe(6.123233995736766e-17);
  expect(sine(1e-300)).toBe(1e-300);
});

test("mirrored angles have mirrored sines, and quarter turns are whole", () => {
  fc.assert(
    fc.property(angles, (angle) => {
      expect(sine(-angle)).toBe(-sine(angle));
      expect(cosine(-angle)).toBe(cosine(angle));
    }),
  );
  expect([sine(0), cosine(0), sine(Math.PI / 2), cosine(Math.PI)]).toEqual([0, 1, 1, -1]);
});

test("an angle of more than a million quarters is refused", () => {
  expect(() => sine(1e7)).toThrow(RangeError);
});
