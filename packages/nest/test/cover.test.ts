import { contains, isSimple, type Loop, polygon, signedArea } from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coverOf } from "../src/cover.ts";

/** An outline round the origin, dented or not, by its corners' distances. */
function outline(reaches: readonly number[]): number[] {
  return reaches.flatMap((reach, i) => {
    const angle = (2 * Math.PI * i) / reaches.length;
    return [reach * Math.cos(angle), reach * Math.sin(angle)];
  });
}

const loopOf = (ring: readonly number[]): Loop =>
  polygon(Array.from({ length: ring.length / 2 }, (_, i) => ({ x: ring[2 * i]!, y: ring[2 * i + 1]! })));

describe("a simpler outline for a search", () => {
  test("holds the true one, has no more wood than allowed, and crosses itself nowhere", () => {
    const reaches = fc.array(fc.double({ min: 20, max: 100, noNaN: true }), { minLength: 5, maxLength: 60 });
    fc.assert(
      fc.property(reaches, fc.double({ min: 0.001, max: 0.3, noNaN: true }), (given, growth) => {
        const ring = outline(given);
        const cover = coverOf(ring, { corners: 8, growth });
        const [inner, outer] = [loopOf(ring), loopOf(cover)];
        expect(isSimple(outer)).toBe(true);
        expect(signedArea(outer)).toBeLessThanOrEqual(signedArea(inner) * (1 + growth) + 1e-6);
        expect(signedArea(outer)).toBeGreaterThanOrEqual(signedArea(inner) - 1e-6);
        for (const { x, y } of inner.vertices) {
          const middle = { x: x * (1 - 1e-9), y: y * (1 - 1e-9) };
          expect(contains(outer, middle)).not.toBe("outside");
        }
      }),
      { numRuns: 300 },
    );
  });

  test("of few corners is what it was", () => {
    const ring = outline([50, 60, 40, 70, 50]);
    expect(coverOf(ring, { corners: 8, growth: 0.1 })).toEqual(ring);
  });

  test("of a circle in a hundred chords takes thirty corners at most, less than a percent larger", () => {
    const ring = outline(Array.from({ length: 100 }, () => 50));
    const cover = coverOf(ring, { corners: 24, growth: 0.01 });
    expect(cover.length / 2).toBeLessThanOrEqual(30);
    expect(signedArea(loopOf(cover)) / signedArea(loopOf(ring))).toBeLessThan(1.01);
  });
});
