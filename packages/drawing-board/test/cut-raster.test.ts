import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Capsule,
  createRaster,
  DEPTH_STEP_MM,
  depthStepsAt,
  type Raster,
  restore,
  snapshotOf,
  stamp,
} from "../src/cut/raster.ts";

const place = fc.record({ x: fc.integer({ min: -20, max: 60 }), y: fc.integer({ min: -20, max: 60 }) });
const anyCapsule: fc.Arbitrary<Capsule> = fc
  .record({
    a: place,
    b: place,
    radius: fc.integer({ min: 1, max: 8 }),
    depth0: fc.integer({ min: -2, max: 9 }),
    depth1: fc.integer({ min: -2, max: 9 }),
  })
  .map(({ a, b, ...rest }) => ({ ...rest, x0: a.x, y0: a.y, x1: b.x, y1: b.y }));

/** The deepest of a thousand discs along the way that cover a point: slow, and nothing to get wrong. */
function bruteDepth({ x0, y0, x1, y1, depth0, depth1, radius }: Capsule, x: number, y: number): number {
  let deepest = 0;
  for (let i = 0; i <= 1000; i++) {
    const t = i / 1000;
    if (Math.hypot(x0 + (x1 - x0) * t - x, y0 + (y1 - y0) * t - y) <= radius)
      deepest = Math.max(deepest, depth0 + (depth1 - depth0) * t);
  }
  return deepest;
}

/** How far a point is from the edge of a capsule's plan; there a pixel may fall either way. */
function fromEdge({ x0, y0, x1, y1, radius }: Capsule, x: number, y: number): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / square));
  return Math.abs(Math.hypot(x0 + dx * t - x, y0 + dy * t - y) - radius);
}

function depths(raster: Raster): number[] {
  return Array.from({ length: raster.columns * raster.rows }, (_, i) =>
    depthStepsAt(raster, i % raster.columns, Math.floor(i / raster.columns)),
  );
}

describe("a cutter's way through the wood", () => {
  test("takes from every pixel as much as the deepest disc that covers it", () => {
    fc.assert(
      fc.property(anyCapsule, (capsule) => {
        const raster = createRaster([40, 40]);
        stamp(raster, capsule);
        const slope = Math.abs(capsule.depth1 - capsule.depth0) / 1000;
        for (let row = 1; row < raster.rows; row += 7)
          for (let column = 2; column < raster.columns; column += 5) {
            const [x, y] = [(column + 0.5) * raster.pixel, (row + 0.5) * raster.pixel];
            if (fromEdge(capsule, x, y) < 0.15) continue;
            const depth = depthStepsAt(raster, column, row) * DEPTH_STEP_MM;
            expect(Math.abs(depth - bruteDepth(capsule, x, y))).toBeLessThanOrEqual(slope + DEPTH_STEP_MM);
          }
      }),
      { numRuns: 40 },
    );
  });

  test("only ever goes deeper, in whatever order it goes", () => {
    fc.assert(
      fc.property(fc.array(anyCapsule, { minLength: 2, maxLength: 4 }), (capsules) => {
        const [there, back] = [createRaster([40, 40]), createRaster([40, 40])];
        for (const capsule of capsules) stamp(there, capsule);
        for (const capsule of [...capsules].reverse()) stamp(back, capsule);
        expect(depths(there)).toEqual(depths(back));
      }),
      { numRuns: 20 },
    );
  });
});

test("wood is put back as it was, and what was kept stays as it is", () => {
  const raster = createRaster([40, 40]);
  const whole = snapshotOf(raster);
  stamp(raster, { x0: 5, y0: 5, x1: 30, y1: 20, depth0: 3, depth1: 3, radius: 3 });
  const grooved = snapshotOf(raster);
  const before = depths(raster);
  stamp(raster, { x0: 5, y0: 30, x1: 30, y1: 5, depth0: 9, depth1: 9, radius: 3 });
  restore(raster, grooved);
  expect(depths(raster)).toEqual(before);
  restore(raster, whole);
  expect(depths(raster).every((steps) => steps === 0)).toBe(true);
});

test("a sheet larger than a square metre has pixels of half a millimetre, a smaller one of a quarter", () => {
  expect(createRaster([2440, 1220]).pixel).toBe(0.5);
  expect(createRaster([1220, 610]).pixel).toBe(0.25);
});
