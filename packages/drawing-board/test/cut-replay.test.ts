import { readProgram } from "@dryfit/verify";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bareProgram } from "../src/cut/cut-program.ts";
import { depthStepsAt } from "../src/cut/raster.ts";
import { leftIn, sectionThrough, sectionWords } from "../src/cut/section.ts";
import {
  endOfLine,
  linesOn,
  momentAt,
  motionOfLine,
  motionsOfBlock,
  timelineOf,
} from "../src/cut/timeline.ts";
import { type Wood, woodFor, woodWords } from "../src/cut/wood.ts";

/** A groove in two passes of 3 mm along y = 20, and a hole through at (60, 40). The sheet is 10 thick, on the bed. */
const TEXT = `G21 G17 G90 G94 G54
G0 Z15
S16000 M3
G0 X10 Y20
G1 Z7 F600
X70 F3000
Z4 F600
X10 F3000
G0 Z15
X60 Y40
G1 Z-0.2 F600
G0 Z15
M5
M30`;

function programOf(text: string = TEXT) {
  const read = readProgram(text);
  expect(read.findings).toEqual([]);
  const sheet = { size: [80, 60], thickness: 10, zZero: "bed", cutterDiameter: 6 } as const;
  const program = bareProgram({ file: "groove.nc", text }, read, [], sheet);
  const timeline = timelineOf(read.motions);
  return { program, timeline, wood: woodFor(program, timeline) };
}

function picture({ replay: { raster } }: Wood): number[] {
  return Array.from({ length: raster.columns * raster.rows }, (_, i) =>
    depthStepsAt(raster, i % raster.columns, Math.floor(i / raster.columns)),
  );
}

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

describe("the wood at a moment", () => {
  test("is the same however one got there", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 6 }),
        (shares) => {
          const { timeline, wood } = programOf();
          for (const share of shares) wood.replay.seek(share * timeline.seconds);
          const straight = programOf();
          straight.wood.replay.seek(shares.at(-1)! * timeline.seconds);
          expect(picture(wood)).toEqual(picture(straight.wood));
        },
      ),
      { numRuns: 15 },
    );
  });

  test("is whole at first, and cut at the end as deep as the program says", () => {
    const { timeline, wood } = programOf();
    wood.replay.seek(0);
    expect(woodWords(wood, { x: 40, y: 20 }, mm)).toBe("At X 40 mm, Y 20 mm: whole wood.");
    wood.replay.seek(timeline.seconds);
    expect(woodWords(wood, { x: 40, y: 20 }, mm)).toBe("At X 40 mm, Y 20 mm: 6 mm deep, 4 mm left.");
    expect(woodWords(wood, { x: 60, y: 40 }, mm)).toBe("At X 60 mm, Y 40 mm: cut through.");
    expect(woodWords(wood, { x: -5, y: 40 }, mm)).toBe("At X -5 mm, Y 40 mm: beside the sheet.");
  });
});

describe("a section", () => {
  const sectionAt = (from: [number, number], to: [number, number]) => {
    const { timeline, wood } = programOf();
    wood.replay.seek(timeline.seconds);
    const [a, b] = [from, to].map(([x, y]) => ({ x, y })) as [
      { x: number; y: number },
      { x: number; y: number },
    ];
    return sectionThrough(wood, { from: a, to: b });
  };

  test("across the groove shows its width and depth, to a pixel", () => {
    const stretches = sectionAt([40, 0], [40, 60]);
    const groove = stretches.find((each) => each.depth! > 0)!;
    expect(groove.from).toBeCloseTo(17, 0);
    expect(groove.to).toBeCloseTo(23, 0);
    expect(leftIn(groove, 10)).toBeCloseTo(4, 2);
    expect(stretches).toHaveLength(3);
  });

  test("may lie askew: the groove is wider there by the angle", () => {
    // At 45° a groove of 6 is 6 · √2 = 8.49 wide.
    const groove = sectionAt([20, 0], [60, 40]).find((each) => each.depth! > 0)!;
    expect(groove.to - groove.from).toBeGreaterThan(8.49 - 0.5);
    expect(groove.to - groove.from).toBeLessThan(8.49 + 0.5);
  });

  test.each([
    ["whole wood", [0, 55], [80, 55], "Whole wood all along."],
    ["the groove", [40, 0], [40, 60], "Not cut through; where wood stands, the thinnest is 4 mm of 10 mm."],
    ["the hole", [50, 40], [70, 40], "Cut through once; where wood stands, the thinnest is 10 mm of 10 mm."],
    ["beside the sheet", [90, 0], [90, 60], "The line lies beside the sheet."],
  ] as const)("in words, through %s", (_, from, to, words) =>
    expect(sectionWords(sectionAt([...from], [...to]), 10, mm)).toBe(words),
  );
});

describe("lines and moments", () => {
  const { timeline } = programOf();
  const lineAt = (seconds: number): number => timeline.motions[momentAt(timeline, seconds).index]!.line;

  test("a line that moves nothing leads to the next that does, and those after the end to the last", () => {
    const lineFor = (line: number) => timeline.motions[motionOfLine(timeline, line)]!.line;
    expect([1, 2, 3, 6, 14].map(lineFor)).toEqual([2, 2, 4, 6, 12]);
  });

  test("at the end of each line that line is shown", () => {
    timeline.motions.forEach((motion, i) => {
      expect(lineAt(endOfLine(timeline, i))).toBe(motion.line);
      expect(motionsOfBlock(timeline, i).every(({ line }) => line === motion.line)).toBe(true);
    });
  });

  test("the arrow keys go through all lines that move, to the end and back", () => {
    const visited: number[] = [];
    let seconds = 0;
    const go = (lines: number): void => {
      seconds = linesOn(timeline, seconds, lines);
      visited.push(seconds === 0 ? 0 : lineAt(seconds));
    };
    for (let i = 0; i < 9; i++) go(1);
    expect(visited).toEqual([2, 4, 5, 6, 7, 8, 9, 10, 11]);
    for (let i = 0; i < 9; i++) go(-1);
    expect(visited.slice(9)).toEqual([10, 9, 8, 7, 6, 5, 4, 2, 0]);
  });
});
