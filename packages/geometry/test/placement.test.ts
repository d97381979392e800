import { expect, test } from "vitest";
import { compose, inverse, type Placement, type Point, place, placement, point } from "../src/index.ts";
import fc from "./seeded.ts";
import { anyPlacement } from "./shapes.ts";

const anyPoint = fc.record({
  x: fc.integer({ min: -500, max: 500 }),
  y: fc.integer({ min: -500, max: 500 }),
});

test("quarter turns and flips are exact", () => {
  const p = { x: 0.1, y: 0.2 };
  expect(place(placement({ x: 0, y: 0 }, { quarters: 1 }), p)).toEqual({ x: -0.2, y: 0.1 });
  expect(place(placement({ x: 0, y: 0 }, { quarters: 2 }), p)).toEqual({ x: -0.1, y: -0.2 });
  expect(place(placement({ x: 0, y: 0 }, { quarters: 3 }), p)).toEqual({ x: 0.2, y: -0.1 });
  expect(place(placement({ x: 0, y: 0 }, { flip: true }), p)).toEqual({ x: -0.1, y: 0.2 });
});

test("a placement undone leaves everything where it was", () =>
  fc.assert(
    fc.property(anyPlacement, anyPoint, (to, p) => {
      expect(place(inverse(to), place(to, p))).toEqual(p);
    }),
  ));

test("two placements composed are one after the other", () =>
  fc.assert(
    fc.property(anyPlacement, anyPlacement, anyPoint, (second, first, p) => {
      expect(place(compose(second, first), p)).toEqual(place(second, place(first, p)));
    }),
  ));

test("any angle composes and undoes within float noise", () =>
  fc.assert(
    fc.property(
      anyPlacement,
      anyPlacement,
      anyPoint,
      fc.double({ min: 0, max: 1.57, noNaN: true }),
      (a, b, p, angle) => {
        const [second, first]: Placement[] = [
          { ...a, angle },
          { ...b, angle: angle / 2 },
        ];
        const [once, twice] = [place(compose(second!, first!), p), place(second!, place(first!, p))];
        expect(Math.hypot(once.x - twice.x, once.y - twice.y)).toBeLessThan(1e-9);
        const back = place(inverse(second!), place(second!, p));
        expect(Math.hypot(back.x - p.x, back.y - p.y)).toBeLessThan(1e-9);
      },
    ),
  ));

test("a sheet point is not a panel point", () => {
  const sheetFromPanel = placement<"sheet", "panel">(point(10, 10));
  const onSheet: Point<"sheet"> = place(sheetFromPanel, point<"panel">(1, 2));
  expect(onSheet).toEqual({ x: 11, y: 12 });
  // @ts-expect-error A point that is already on the sheet cannot be placed on it again.
  place(sheetFromPanel, onSheet);
});
