import { distance, type Point } from "@dryfit/geometry";
import fc from "fast-check";
import { expect, test } from "vitest";
import { nearestOf } from "../src/nearest-stop.ts";

const anyPoint = fc.record({
  x: fc.double({ min: -50, max: 1200, noNaN: true }),
  y: fc.double({ min: -50, max: 600, noNaN: true }),
});

test("every hole of a sheet is found once, each time the nearest that is left", () => {
  const stops = fc.array(fc.record({ gates: fc.array(anyPoint, { minLength: 1, maxLength: 4 }) }), {
    minLength: 1,
    maxLength: 40,
  });
  fc.assert(
    fc.property(stops, anyPoint, (all, start) => {
      const next = nearestOf(all);
      const left = new Set(all);
      let at: Point = start;
      while (left.size > 0) {
        const ways = [...left].flatMap(({ gates }) => gates.map((gate) => distance(gate, at)));
        const { stop, gate } = next(at);
        expect(left.delete(stop)).toBe(true);
        expect(stop.gates).toContain(gate);
        expect(distance(gate, at)).toBeCloseTo(Math.min(...ways), 9);
        at = gate;
      }
      expect(() => next(at)).toThrow(RangeError);
    }),
    { seed: 5, numRuns: 100 },
  );
});
