import {
  CHIP_MM,
  contains,
  differenceFlat,
  type Path,
  type Point,
  pathOf,
  point,
  polygon,
  rectangle,
  segment,
  sweepFlat,
} from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Engagement, type EngagementBench, engagementsOf } from "../src/index.ts";
import { readProgram } from "../src/program/read-program.ts";

const BENCH: EngagementBench = {
  diameter: 6,
  wood: [{ outer: rectangle(point(-100, -100), point(100, 100)), holes: [] }],
  top: 0,
};

/** The widest engagement of each feed motion of a program in a 200 mm square of wood, degrees. */
function engaged(blocks: string, bench: Partial<EngagementBench> = {}): number[] {
  return engagedAt(blocks, bench).map(({ angle }) => degrees(angle));
}

function engagedAt(blocks: string, bench: Partial<EngagementBench>): readonly Engagement[] {
  const text = `G21 G17 G90 G94\nT1 M6\nM3 S18000\nG0 Z5\n${blocks}\nG0 Z5\nM2\n`;
  const { motions } = readProgram(text, { file: "test.nc", dwellUnit: "s" });
  return engagementsOf(motions, { ...BENCH, ...bench });
}

function check(blocks: string, ...degrees: number[]): void {
  const found = engaged(blocks);
  for (const [i, expected] of degrees.entries()) {
    if (!Number.isNaN(expected)) expect(found[i], `motion ${i + 1}`).toBeCloseTo(expected, 0);
  }
}

const ANY = Number.NaN;
const degrees = (radians: number): number => (radians * 180) / Math.PI;

describe("how much of a cutter's rim cuts at once", () => {
  test("half of it in a full slot, all of it straight down", () =>
    check("G0 X-50 Y0\nG1 Z-5 F500\nX50 F2000", 360, 180));
  // derived: acos(1 - a / r)
  test("at the side of a slot, as wide as the stepover says", () => {
    for (const a of [0.75, 1.5, 3])
      check(`G0 X-50 Y0\nG1 Z-5 F500\nX50 F2000\nY${a}\nX-40`, ANY, 180, ANY, degrees(Math.acos(1 - a / 3)));
  });
  // derived: beyond the slot's round end the rim is in wood from asin(-a / 2r) to a quarter turn
  test("more where it runs on past the end of the slot", () =>
    check("G0 X-50 Y0\nG1 Z-5 F500\nX50 F2000\nY1.5\nX-50", ANY, 180, ANY, 90 + degrees(Math.asin(0.25))));
  test("nothing on the same way back", () => check("G0 X-50 Y0\nG1 Z-5 F500\nX50 F2000\nX-50", ANY, 180, 0));
  test("nothing in the air over the sheet, nor beside it", () =>
    check("G0 X-50 Y0\nG1 Z1 F500\nX50 F2000\nG0 Y110\nG1 Z-5 F500\nX-50 F2000", 0, 0, 0, 0));
  test("half of the slot where it runs along the sheet's edge", () =>
    check("G0 X-110 Y100\nG1 Z-5 F500\nX50 F2000", 0, 90));
  // derived: law of cosines in the triangle of the two centres and the rim's last point in wood
  test("more inside a round hole that grows by the same stepover", () => {
    const [R, a, r] = [10, 1.5, 3];
    const cosine = ((R + r) ** 2 - (R + a) ** 2 - r * r) / (2 * (R + a) * r);
    check(
      `G0 X${R} Y0\nG1 Z-5 F500\nG3 X-${R} I-${R} F2000\nX${R} I${R}\nG1 X${R + a}\nG3 X-${R + a} I-${R + a}\nX${R + a} I${R + a}`,
      ANY,
      180,
      180,
      ANY,
      ANY,
      degrees(Math.acos(cosine)),
    );
  });
  test("nothing that counts down a helix whose turns sink less than a skim", () =>
    check("G0 X2 Y0\nG1 Z0 F500\nG3 X-2 I-2 Z-0.45 F1000\nX2 I2 Z-0.9\nX-2 I-2\nX2 I2", 0, 0, 0, 0, 0));
  test("a full slot down a steep ramp", () =>
    check("G0 X-50 Y0\nG1 Z0 F500\nX0 Z-8 F1000\nX-50", 0, 180, 180));
  test("the same whichever way the slot lies", () =>
    check("G0 X0 Y-50\nG1 Z-5 F500\nY50 F2000\nX-1.5\nY-40", ANY, 180, ANY, 60));
  test("only as much as there is wood", () => {
    const left = [{ outer: rectangle<"machine">(point(-100, -100), point(100, 1.5)), holes: [] }];
    expect(engaged("G0 X-120 Y3\nG1 Z-5 F500\nX120 F2000", { wood: left })[1]).toBeCloseTo(60, 0);
  });
});

type Place = Point<"machine">;

/** The rim's points in wood from which polygons have been taken, counted at a place of a straight leg. */
function counted(at: Place, from: Place, to: Place, left: EngagementBench["wood"]): number {
  const ahead = Math.atan2(to.y - from.y, to.x - from.x);
  const many = 120;
  const inWood = Array.from({ length: many }, (_, k): number => {
    const angle = ahead + (((k + 0.5) / many) * 180 - 90) * (Math.PI / 180);
    const q = { x: at.x + 3 * Math.cos(angle), y: at.y + 3 * Math.sin(angle) };
    return left.some((region) => contains(region, q) === "inside") ? 1 : 0;
  });
  return inWood.reduce((a, b) => a + b, 0) * (180 / many);
}

test("counting the rim's points in what polygons leave of the wood says the same", () => {
  const place = fc
    .tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -20, max: 20 }))
    .map(([x, y]) => point<"machine">(x, y));
  const wood = [
    {
      outer: polygon<"machine">([point(-25, -18), point(22, -25), point(25, 20), point(-10, 24)]),
      holes: [],
    },
  ];
  fc.assert(
    fc.property(
      fc.uniqueArray(place, { minLength: 3, maxLength: 5, selector: ({ x, y }) => `${x} ${y}` }),
      (way) => {
        const [first, ...rest] = way;
        const blocks = rest.map(({ x, y }) => `G1 X${x} Y${y} F2000`);
        const found = engagedAt([`G0 X${first!.x} Y${first!.y}`, "G1 Z-5 F500", ...blocks].join("\n"), {
          wood,
        });
        rest.forEach((to, i) => {
          const from = way[i]!;
          const gone = rest
            .slice(0, i)
            .map((end, k): Path<"machine"> => pathOf([segment<"machine">(way[k]!, end, 0)]));
          const left = differenceFlat<"machine">(wood, sweepFlat(gone, 3));
          // A layer thinner than a chip may or may not count.
          const thick = differenceFlat<"machine">(wood, sweepFlat(gone, 3 + CHIP_MM));
          const { at, angle } = found[i + 1]!;
          for (const t of [0.15, 0.5, 0.85]) {
            const between = { x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t };
            expect(counted(between, from, to, thick), `leg ${i + 1}`).toBeLessThan(degrees(angle) + 2);
          }
          // A place at the very start lies on what the leg before has cleared: there counting is a matter of chance.
          if (Math.hypot(at.x - from.x, at.y - from.y) > 0.5) {
            expect(counted(at, from, to, thick), `leg ${i + 1}`).toBeLessThan(degrees(angle) + 3);
            expect(counted(at, from, to, left), `leg ${i + 1}`).toBeGreaterThan(degrees(angle) - 3);
          }
        });
      },
    ),
    { seed: 5, numRuns: 25 },
  );
});
