import { distance, type Loop, place, placeCurve, point, rectangle, signedArea } from "@dryfit/geometry";
import type { Stock } from "@dryfit/nest";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { setupFrames, turningOf } from "../src/flip.ts";

const STOCK: Stock = {
  id: "sheet",
  material: "plywood",
  size: [1220, 610],
  outline: null,
  grain: "x",
  count: null,
  price: null,
  keepOuts: [],
};
const ROOM = { stock: STOCK, air: 12, edge: 9, differ: 20 };

describe("a sheet turned over", () => {
  test("about x = 610 lies on the same spot, left and right changed", () => {
    const { B } = setupFrames({ axis: "y", at: 610 });
    expect(place(B, point<"sheet">(0, 100))).toEqual({ x: 1220, y: 100 });
    expect(place(B, point<"sheet">(610, 305))).toEqual({ x: 610, y: 305 });
  });
  test("about y = 305 lies on the same spot, front and back changed", () => {
    const { B } = setupFrames({ axis: "x", at: 305 });
    expect(place(B, point<"sheet">(100, 0))).toEqual({ x: 100, y: 610 });
  });
  test("keeps outlines counter-clockwise", () => {
    const loop = rectangle(point<"sheet">(10, 10), point(50, 30));
    for (const axis of ["x", "y"] as const) {
      const { B } = setupFrames({ axis, at: 300 });
      expect(signedArea(placeCurve(B, loop))).toBeCloseTo(800, 9);
    }
  });
});

/** All ways of laying the sheet down on the pins: turned by half a turn, or over, or both. */
function fitsOnlyOneWay(outlines: readonly Loop<"sheet">[]): void {
  const turning = turningOf({ ...ROOM, outlines });
  expect(turning).not.toBeNull();
  const { flip, pins } = turning!;
  const own = setupFrames(flip).B;
  const sameSet = (moved: readonly { x: number; y: number }[]): boolean =>
    moved.every((p) => pins.some((q) => distance(p, q) < 0.5));
  expect(sameSet(pins.map((p) => place(own, p)))).toBe(true);
  // Any rigid move that lays two pins on two pins, straight or turned over, lays the third elsewhere.
  for (const over of [false, true])
    for (const a of pins)
      for (const b of pins) {
        const [p, q] = [pins[0]!, pins[1]!];
        if (a === b || Math.abs(distance(a, b) - distance(p, q)) > 0.5) continue;
        const moved = pins.map((r) => rigid(p, q, a, b, over, r));
        if (!sameSet(moved)) continue;
        const still = moved.every((m, i) => distance(m, pins[i]!) < 0.5);
        const turned = moved.every((m, i) => distance(m, place(own, pins[i]!)) < 0.5);
        expect(still || turned).toBe(true);
      }
  for (const pin of pins)
    for (const { vertices } of outlines) {
      const xs = vertices.map(({ x }) => x);
      const ys = vertices.map(({ y }) => y);
      const dx = Math.max(Math.min(...xs) - pin.x, 0, pin.x - Math.max(...xs));
      const dy = Math.max(Math.min(...ys) - pin.y, 0, pin.y - Math.max(...ys));
      expect(Math.hypot(dx, dy)).toBeGreaterThanOrEqual(ROOM.air);
    }
}

describe("pins", () => {
  const box = (x0: number, y0: number, x1: number, y1: number) =>
    rectangle(point<"sheet">(x0, y0), point(x1, y1));

  test("stand on the axis of an empty sheet", () => fitsOnlyOneWay([]));
  test("keep off the parts", () => fitsOnlyOneWay([box(20, 20, 580, 590), box(640, 20, 1200, 280)]));
  test("stand in pairs where parts cover both middles", () => fitsOnlyOneWay([box(120, 80, 1100, 530)]));
  test("are refused where parts leave no waste", () =>
    expect(turningOf({ ...ROOM, outlines: [box(5, 5, 1215, 605)] })).toBeNull());
});

/** Carries p to a and q to b, turned over or not, and r along. */
function rigid(
  p: { x: number; y: number },
  q: { x: number; y: number },
  a: { x: number; y: number },
  b: { x: number; y: number },
  over: boolean,
  r: { x: number; y: number },
): { x: number; y: number } {
  const d = distance(p, q);
  const [ux, uy] = [(q.x - p.x) / d, (q.y - p.y) / d];
  const [along, across] = [(r.x - p.x) * ux + (r.y - p.y) * uy, (r.y - p.y) * ux - (r.x - p.x) * uy];
  const [vx, vy] = [(b.x - a.x) / d, (b.y - a.y) / d];
  const side = over ? -across : across;
  return { x: a.x + along * vx - side * vy, y: a.y + along * vy + side * vx };
}

test("any pattern of pins falls on itself when the sheet is turned over, and fits no other way", () => {
  const way = fc.integer({ min: 20, max: 1100 });
  const part = fc
    .record({
      x: way,
      y: fc.integer({ min: 20, max: 500 }),
      w: fc.integer({ min: 40, max: 700 }),
      h: fc.integer({ min: 40, max: 400 }),
    })
    .map(({ x, y, w, h }) =>
      rectangle(point<"sheet">(x, y), point(Math.min(x + w, 1200), Math.min(y + h, 590))),
    );
  fc.assert(
    fc.property(fc.array(part, { maxLength: 4 }), (outlines) => {
      if (turningOf({ ...ROOM, outlines }) !== null) fitsOnlyOneWay(outlines);
    }),
    { seed: 5, numRuns: 40 },
  );
});
