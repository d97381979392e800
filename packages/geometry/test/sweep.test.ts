import { describe, expect, test } from "vitest";
import {
  areaOf,
  type Curve,
  circle,
  contains,
  polyline,
  rectangle,
  roundedRectangle,
  runOut,
  segments,
  sweep,
  sweepFlat,
} from "../src/index.ts";
import fc from "./seeded.ts";
import { boundaryPoints, box, distanceToAny, isSound, plate, rounded } from "./shapes.ts";

describe("a cutter of radius 3", () => {
  test("down and up again leaves a round hole", () => {
    const [hole] = sweep([polyline([{ x: 5, y: 5 }])], 3);
    expect(areaOf([hole!])).toBeCloseTo(9 * Math.PI, 9);
    expect(segments(hole!.outer).every((s) => s.kind === "arc" && s.radius === 3)).toBe(true);
  });
  test("along a line leaves a slot with round ends", () => {
    const [slot] = sweep(
      [
        polyline([
          { x: 0, y: 0 },
          { x: 40, y: 0 },
        ]),
      ],
      3,
    );
    expect(areaOf([slot!])).toBeCloseTo(240 + 9 * Math.PI, 9);
    expect(segments(slot!.outer).map((s) => s.kind)).toEqual(["line", "arc", "line", "arc"]);
  });
  test("there and back again cuts no more", () =>
    expect(
      areaOf(
        sweep(
          [
            polyline([
              { x: 0, y: 0 },
              { x: 40, y: 0 },
              { x: 0, y: 0 },
            ]),
          ],
          3,
        ),
      ),
    ).toBeCloseTo(240 + 9 * Math.PI, 9));
  test("round a circle leaves its plug, or none where the circle is tight", () => {
    const [ring] = sweep([circle({ x: 0, y: 0 }, 10)], 3);
    expect(areaOf([ring!])).toBeCloseTo(Math.PI * (169 - 49), 9);
    expect(ring!.holes).toHaveLength(1);
    expect(areaOf(sweep([circle({ x: 0, y: 0 }, 2)], 3))).toBeCloseTo(25 * Math.PI, 9);
    expect(areaOf(sweep([circle({ x: 0, y: 0 }, 3)], 3))).toBeCloseTo(36 * Math.PI, 9);
  });
  test("round inside an outline cuts the offset outline and keeps the middle", () => {
    const [rim] = sweep([roundedRectangle({ x: 3, y: 3 }, { x: 97, y: 57 }, 2)], 3);
    expect(areaOf([rim!])).toBeCloseTo(6000 - (4 - Math.PI) * 25 - 88 * 48, 9);
  });
  test("two passes that just meet are one", () =>
    expect(
      sweep(
        [0, 6].map((y) =>
          polyline([
            { x: 0, y },
            { x: 40, y },
          ]),
        ),
        3,
      ),
    ).toHaveLength(1));
  test("nothing cut leaves nothing", () => expect(sweep([], 3)).toEqual([]));
});

const step = (n: number): number => n / 2;
const place = fc.record({
  x: fc.integer({ min: 0, max: 120 }).map(step),
  y: fc.integer({ min: 0, max: 120 }).map(step),
});
const move: fc.Arbitrary<Curve> = fc.oneof(
  fc
    .array(fc.tuple(place, fc.constantFrom(0, 0, 0, 1, -1, 0.5, -0.3, 0.05)), { minLength: 1, maxLength: 8 })
    .map((list) => ({ closed: false as const, vertices: list.map(([p, bulge]) => ({ ...p, bulge })) })),
  fc.tuple(place, fc.constantFrom(1, 2, 3, 4, 8)).map(([p, radius]) => circle(p, radius)),
  fc
    .tuple(place, fc.integer({ min: 1, max: 5 }))
    .map(([p, r]) => roundedRectangle(p, { x: p.x + 30, y: p.y + 20 }, r)),
);

test("what any moves cover is what lies within the cutter's radius of them", () =>
  fc.assert(
    fc.property(
      fc.array(move, { minLength: 1, maxLength: 4 }),
      fc.constantFrom(3, 1.5, 4),
      fc.array(place, { minLength: 30, maxLength: 60 }),
      (moves, radius, places) => {
        const [exact, flat] = [sweep(moves, radius), sweepFlat(moves, radius)];
        expect(isSound(exact)).toBe(true);
        for (const p of boundaryPoints(exact)) {
          expect(Math.abs(distanceToAny(moves, p) - radius)).toBeLessThan(2e-6);
        }
        for (const p of places) {
          const away = distanceToAny(moves, p);
          if (Math.abs(away - radius) < 0.002) continue;
          for (const cut of [exact, flat]) {
            expect(cut.some((region) => contains(region, p) !== "outside")).toBe(away < radius);
          }
        }
      },
    ),
    { numRuns: 60 },
  ));

describe("a recess that runs out over an edge", () => {
  const outline = rectangle({ x: 0, y: 0 }, { x: 100, y: 60 });
  test("is cut past the edge by the cutter's radius, and stays exact within", () => {
    const [recess] = runOut(box(20, 0, 20, 10), outline, 3);
    // Within: 20 × 10. Beyond: 20 × 3 and a quarter turn at either end.
    expect(areaOf([recess!])).toBeCloseTo(200 + 60 + 4.5 * Math.PI, 9);
    expect(contains(recess!, { x: 19.9, y: 5 })).toBe("outside");
    expect(contains(recess!, { x: 30, y: -2.9 })).toBe("inside");
  });
  test("stays as it is where it only comes near the edge", () =>
    expect(runOut(box(20, 1, 20, 10), outline, 3)).toEqual([box(20, 1, 20, 10)]));
  test("runs out on the side that lies on the edge only", () => {
    const [recess] = runOut(box(0, 1, 20, 10), outline, 3);
    expect(contains(recess!, { x: -2.9, y: 5 })).toBe("inside");
    expect(contains(recess!, { x: 10, y: 0.5 })).toBe("outside");
    expect(contains(recess!, { x: 10, y: -0.5 })).toBe("outside");
  });
  test("follows rounded corners", () => {
    const round = rounded(0, 0, 100, 60, 8);
    const [recess] = runOut(round, round.outer, 3);
    expect(areaOf([recess!])).toBeCloseTo(areaOf([rounded(-3, -3, 106, 66, 11)]), 6);
  });
  test("all round the blank, a rebate leaves the middle", () => {
    const rebate = { outer: outline, holes: [plate(rectangle({ x: 7, y: 7 }, { x: 93, y: 53 })).outer] };
    const hole = { closed: true as const, vertices: [...rebate.holes[0]!.vertices].reverse() };
    const [run] = runOut({ outer: outline, holes: [hole] }, outline, 3);
    expect(areaOf([run!])).toBeCloseTo(6000 + 320 * 3 + 9 * Math.PI - 86 * 46, 9);
  });
});
