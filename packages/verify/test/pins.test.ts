import { distance, type Point, placement, rectangle } from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkPins } from "../src/check/pins.ts";
import { apartAt } from "../src/check/setups-apart.ts";
import { proveCuts } from "../src/prove-cuts.ts";
import { PLATE, plateJob, programText } from "./plate.ts";

/** The farthest that a place moves when two pins each move anywhere in a disc of radius `e`, found by trying. */
function farthest(point: Point, a: Point, b: Point, e: number): number {
  const length = distance(a, b);
  const [ux, uy] = [(b.x - a.x) / length, (b.y - a.y) / length];
  let most = 0;
  for (let i = 0; i <= 200; i++) {
    // Both move alike along their line; across it, each as far as its disc lets it.
    const along = e * Math.cos((Math.PI * i) / 200);
    const across = Math.sqrt(Math.max(0, e * e - along * along));
    for (const [p, q] of [
      [across, across],
      [across, -across],
      [-across, across],
      [0, across],
    ] as const) {
      const turn = (q - p) / length;
      const [dx, dy] = [point.x - a.x, point.y - a.y];
      const x = along * ux - p * uy - turn * dy;
      const y = along * uy + p * ux + turn * dx;
      most = Math.max(most, Math.hypot(x, y));
    }
  }
  return most;
}

describe("how far two setups can be apart", () => {
  test("is half the play right between two pins", () =>
    expect(
      apartAt(
        { x: 50, y: 0 },
        [
          { x: 0, y: 0 },
          { x: 100, y: 0 },
        ],
        0.1,
      ),
    ).toBeCloseTo(0.05, 9));
  // Derived: g = 3, k = 0; the greater root of λ² − 10 λ + 9 = 0 is 9.
  test("is three times that one spacing beyond a pin", () =>
    expect(
      apartAt(
        { x: 200, y: 0 },
        [
          { x: 0, y: 0 },
          { x: 100, y: 0 },
        ],
        0.1,
      ),
    ).toBeCloseTo(0.15, 9));
  // Derived: g = 0, k = 1; λ² − 5 λ = 0.
  test("is √5 times that one spacing beside their middle", () =>
    expect(
      apartAt(
        { x: 50, y: 100 },
        [
          { x: 0, y: 0 },
          { x: 100, y: 0 },
        ],
        0.1,
      ),
    ).toBeCloseTo(0.05 * Math.sqrt(5), 9));
  const near = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
  const place = fc.record({ x: near(800), y: near(800) });
  test("is what trying all pushes finds, and never less", () => {
    fc.assert(
      fc.property(place, place, place, (point, a, b) => {
        fc.pre(distance(a, b) > 50);
        const told = apartAt(point, [a, b], 0.2);
        const found = farthest(point, a, b, 0.1);
        expect(found).toBeLessThanOrEqual(told + 1e-9);
        expect(found).toBeGreaterThan(0.995 * told);
      }),
      { seed: 3, numRuns: 300 },
    );
  });
  test("never grows with one more pin", () => {
    fc.assert(
      fc.property(place, place, place, place, (point, a, b, c) => {
        fc.pre(distance(a, b) > 50 && distance(a, c) > 50 && distance(b, c) > 50);
        expect(apartAt(point, [a, b, c], 0.2)).toBeLessThanOrEqual(apartAt(point, [a, b], 0.2));
      }),
      { seed: 4, numRuns: 200 },
    );
  });
});

/** One pin on the line about which the plate's sheet is turned, and a pair beside it. */
const PINS = [
  [75, 8],
  [15, 30],
  [135, 30],
] as const;

/** The plate's job with its pins bored first: each 5 deep into the board. */
function codes(change: (text: string) => string, pins: object = {}): string[] {
  const bores = PINS.map(([x, y]) => `G0 X${x} Y${y}\nG0 Z11\nG1 Z-5 F300\nG0 Z15\n`).join("");
  const good = programText("plate-a.nc").replace("(rebate along", `${bores}(rebate along`);
  const job = plateJob({ a: change(good) });
  const flip = {
    ...job.flips["sheet-1"]!,
    pins: { diameter: 6, depth: 5, play: 0.04, at: PINS, ...pins },
  };
  const { findings } = proveCuts({ ...job, flips: { "sheet-1": flip } });
  return findings.map(({ code }) => code);
}

describe("pins", () => {
  const same = (text: string): string => text;
  test("may stand deeper in the board than any other cut goes", () => expect(codes(same)).toEqual([]));
  test("are missed where one is not bored", () =>
    expect(codes((text) => text.replace("G0 X15 Y30\nG0 Z11\nG1 Z-5 F300\n", ""))).toEqual([
      "pin_hole_wrong",
    ]));
  test("are missed where one is not deep enough", () =>
    expect(codes((text) => text.replace("G1 Z-5", "G1 Z-4"))).toEqual(["pin_hole_wrong"]));
  test("are found loose where a hole is wider than its pin", () =>
    expect(codes((text) => text.replace("G1 Z-5 F300", "G1 Z-5 F300\nG1 X75.1"))).toContain(
      "pin_hole_wrong",
    ));
  test("excuse no cut into the board beside them", () =>
    expect(
      codes((text) => text.replace("G0 X50 Y17\n", "G0 X60 Y8\nG0 Z11\nG1 Z-5 F300\nG0 Z15\nG0 X50 Y17\n")),
    ).toEqual(["below_bed"]));
  test("with much play are told to tighten up", () =>
    expect(codes(same, { play: 0.3 })).toEqual(["setups_apart"]));
  test("that do not fall on each other when the sheet is turned are refused", () =>
    expect(codes(same, { at: [PINS[0], PINS[1], [134, 30]] })).toContain("pins_do_not_match"));
  test("that fit in two ways are refused", () => {
    const sheet = plateJob().sheets[0]!;
    const square = [
      [30, 20],
      [120, 20],
      [30, 80],
      [120, 80],
    ] as const;
    const { findings } = checkPins({
      sheet,
      flip: { axis: "y", at: 75, pins: { diameter: 6, depth: 0, play: 0, at: square } },
      strokes: [],
      parts: [
        {
          part: { ...PLATE, outline: rectangle({ x: 0, y: 0 }, { x: 1, y: 1 }) },
          sheetFromPanel: placement({ x: 0, y: 0 }),
        },
      ],
      thickness: 10,
    });
    expect(findings.map(({ code }) => code)).toContain("pins_fit_twice");
  });
});
