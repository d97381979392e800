import { boundsOf, type Loop, rectangle, reversed, roundedRectangle } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";
import { partDxf, readDxf, withKerf, withoutKerf } from "../src/index.ts";
import { bore, opening, panel } from "./parts.ts";

const plate = (x: number, y: number) => rectangle({ x: 0, y: 0 }, { x, y });
const slot = (width: number) => roundedRectangle({ x: 10, y: 10 }, { x: 40, y: 10 + width }, 1.5);

function size(loop: Loop): readonly [number, number] {
  const { min, max } = boundsOf(loop);
  return [max.x - min.x, max.y - min.y];
}

function openingOf({ features }: Part): Loop {
  const [first] = features;
  if (first?.kind !== "opening") throw new Error("no opening");
  return first.loop;
}

describe("kerf drawn in", () => {
  test("an outline of 100 × 50 and a hole of 10 are drawn 100.2 × 50.2 and 9.8 for a kerf of 0.2", () => {
    // J10: derived, half a kerf outwards and half a kerf inwards.
    const drawn = withKerf(panel("plate", plate(100, 50), [bore("hole", 50, 25, 10, null)]), 0.2);
    expect(size(drawn.outline)[0]).toBeCloseTo(100.2, 9);
    expect(size(drawn.outline)[1]).toBeCloseTo(50.2, 9);
    expect(drawn.features[0]).toMatchObject({ diameter: 9.8 });
  });

  test.each([
    [6, 6, 0.15],
    [5.95, 6.05, 0.2],
  ])("a tongue of %f and its slot of %f are drawn t + kerf and s − kerf for %f", (t, s, kerf) => {
    // Derived: both are cut by the same beam.
    expect(size(withKerf(panel("tongue", plate(40, t)), kerf).outline)[1]).toBeCloseTo(t + kerf, 9);
    const drawn = withKerf(panel("plate", plate(100, 50), [opening("slot", slot(s))]), kerf);
    expect(size(openingOf(drawn))[1]).toBeCloseTo(s - kerf, 9);
  });

  test("a beam that burns it away leaves the part as designed, read from the file", () => {
    const drawn = withKerf(panel("plate", plate(100, 50), [opening("slot", slot(6))]), 0.15);
    const [outer, hole] = readDxf(partDxf(drawn, { runOut: 0, labels: false })).loops.map(({ loop }) => loop);
    const [left] = withoutKerf([{ outer: outer!, holes: [reversed(hole!)] }], 0.15);
    expect(size(left!.outer)[0]).toBeCloseTo(100, 3);
    expect(size(left!.holes[0]!)[1]).toBeCloseTo(6, 3);
  });

  test("recesses and blind holes are cleared, not cut out: they stay", () => {
    const blind = bore("blind", 50, 25, 10, 5);
    expect(withKerf(panel("plate", plate(100, 50), [blind]), 0.2).features).toEqual([blind]);
  });

  test("a cutout narrower than the kerf cannot be drawn", () => {
    const slit = rectangle({ x: 10, y: 10 }, { x: 40, y: 10.1 });
    expect(() => withKerf(panel("plate", plate(100, 50), [opening("slit", slit)]), 0.15)).toThrow(RangeError);
  });
});
