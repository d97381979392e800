import { readProgram } from "@dryfit/verify";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bareSheetFor } from "../src/cut/bare-sheet.ts";
import { blocksOf } from "../src/cut/blocks.ts";
import { bareProgram } from "../src/cut/cut-program.ts";
import { judgeFile } from "../src/cut/judge-file.ts";
import { notedOf } from "../src/cut/noted.ts";
import { cutterPathOf, passingAt } from "../src/cut/path-layer.ts";
import { sectionThrough } from "../src/cut/section.ts";
import { tabsIn } from "../src/cut/tabs-in.ts";
import { timelineOf } from "../src/cut/timeline.ts";
import { woodFor } from "../src/cut/wood.ts";

const program = (...lines: string[]): string =>
  ["G21 G17 G90 G94 G54", "G0 Z20", "S16000 M3", "G0 X10 Y10", ...lines, "G0 Z20", "M5", "M30"].join("\n");

describe("tabs are read off the text", () => {
  const tabLines = (...lines: string[]): number[] => {
    const { motions } = readProgram(program(...lines));
    return tabsIn(motions, (z) => 15 - z).map(({ line }) => line);
  };
  const pass = ["G1 Z-0.5 F600", "X100 F3000"];

  test("up, along and down again within a cut is a tab", () =>
    expect(tabLines(...pass, "X102 Z1.5", "X110", "X112 Z-0.5", "X200")).toEqual([7]));
  test("straight up and straight down is one too", () =>
    expect(tabLines(...pass, "Z1.5", "X110", "Z-0.5", "X200")).toEqual([7]));
  test("a lift over the sheet is none", () =>
    expect(tabLines(...pass, "Z18", "X110", "Z-0.5", "X200")).toEqual([]));
  test("a floor that is left at another depth is none", () =>
    expect(tabLines(...pass, "Z5", "X110", "Z3", "X200")).toEqual([]));
  test("a long floor is none", () => expect(tabLines(...pass, "Z5", "X190", "Z-0.5", "X200")).toEqual([]));
  test("coming up at the end of a cut is none", () => expect(tabLines(...pass, "Z5")).toEqual([]));
});

describe("what a program leaves unsaid", () => {
  const guessed = (text: string) => bareSheetFor(text, readProgram(text));

  test("is taken from a header as dryfit writes it, over broken lines too", () => {
    const header = [
      "(Sheet: 1220 x 610 mm, 14.8 mm thick.)",
      "(Zero: X0 Y0 at the sheet's lower left corner as it lies, Z0 on the)",
      "(bed, where the sheet lies. Units mm, feeds mm/min.)",
      "(Cutter 6, 3.2 mm drill, 2 flutes, 8000 rpm.)",
    ].join("\n");
    expect(guessed(`${header}\n${program("G1 Z9 F600")}`)).toEqual({
      size: [1220, 610],
      thickness: 14.8,
      zZero: "bed",
      cutterDiameter: 3.2,
    });
  });
  test("else the sheet is as large as the cuts, and zero where they suggest", () => {
    expect(guessed(program("G1 Z-12.3 F600", "X400 Y210 F3000"))).toEqual({
      size: [410, 220],
      thickness: 12,
      zZero: "top",
      cutterDiameter: 6,
    });
    expect(guessed(program("G0 Z16", "G1 Z-0.5 F600", "X400 F3000"))).toMatchObject({
      thickness: 15,
      zZero: "bed",
    });
  });
});

describe("a file from anywhere", () => {
  test("a program is judged on the sheet it is given, each finding at its line", () => {
    const text = program("G1 Z-3 F600", "X50 F3000");
    const judged = judgeFile(
      { file: "deep.nc", text },
      { size: [100, 100], thickness: 15, zZero: "bed", cutterDiameter: 6 },
    );
    const noted = notedOf(judged.findings);
    expect(noted.map(({ finding, line }) => [finding.code, line])).toContainEqual(["below_bed", 5]);
  });
  test("a drawing is judged as a cutting service would", () => {
    const judged = judgeFile({ file: "odd.dxf", text: "this is no drawing" }, null);
    expect(judged.kind).toBe("drawing");
    expect(judged.findings.map(({ code }) => code)).toEqual(["dxf_unreadable"]);
  });
});

const anyWord = fc
  .tuple(fc.constantFrom(..."GXYZIJKFSMTNRP"), fc.oneof(fc.integer({ min: -3, max: 99 }), fc.double()))
  .map(([letter, value]) => `${letter}${value}`);
const anyLine = fc.oneof(
  fc.array(anyWord, { maxLength: 5 }).map((words) => words.join(" ")),
  fc.constantFrom(
    "G21 G17 G90 G94 G54",
    "G0 Z20",
    "G2 X30 Y10 I10 J0 F900",
    "G18",
    "G20",
    "(Sheet: 1e999 x 0 mm, 0 mm thick)",
  ),
  fc.string(),
);

test("whatever is dropped as a program can be looked at", () => {
  fc.assert(
    fc.property(fc.array(anyLine, { maxLength: 20 }), (lines) => {
      const text = lines.join("\n");
      const judged = judgeFile({ file: "any.nc", text }, null);
      if (judged.kind !== "program") throw new RangeError(judged.kind);
      expect(judged.sheet.size.every((mm) => mm > 0 && mm <= 10_000)).toBe(true);
      const cut = bareProgram({ file: "any.nc", text }, judged.read, judged.findings, judged.sheet);
      const timeline = timelineOf(judged.read.motions);
      const wood = woodFor(cut, timeline);
      wood.replay.seek(timeline.seconds / 2);
      wood.replay.seek(timeline.seconds);
      cutterPathOf(cut);
      blocksOf(cut.lines, judged.read.motions, []);
      expect(sectionThrough(wood, { from: { x: 0, y: 5 }, to: { x: 10, y: 5 } }).length).toBeGreaterThan(0);
    }),
    { numRuns: 150, seed: 4 },
  );
});

describe("the text and the sheet", () => {
  const text = program(
    "(Block 1: Base, rebate)",
    "G1 Z9 F600",
    "(Block 1.2: pass 2 of 2)",
    "X50 F3000",
    "G0 Z20",
    "(Block 2: Slat)",
    "X60",
    "G1 Z5",
  );
  const lines = text.split("\n");
  const { motions } = readProgram(text);
  const blocks = blocksOf(lines, motions, []);

  test("each line knows what it does", () =>
    expect(lines.map((_, i) => blocks.kindOf(i + 1)).slice(0, 9)).toEqual([
      "none",
      "rapid",
      "none",
      "rapid",
      "none",
      "entry",
      "none",
      "cut",
      "rapid",
    ]));
  test("a line is named by the comments above it", () => {
    expect(blocks.titleOf(6)).toBe("Block 1: Base, rebate");
    expect(blocks.titleOf(8)).toBe("Block 1: Base, rebate, pass 2 of 2");
    expect(blocks.headings.map(({ line }) => line)).toEqual([5, 10]);
  });

  const passes = readProgram(program("G1 Z9 F600", "X50 F3000", "Z6 F600", "X10 F3000")).motions;
  const asked = (x: number, y: number, after: number): number | null => {
    const found = passingAt(passes, { x, y }, { within: 2, after });
    return found && passes[found.index]!.line;
  };
  test("a place leads to the line that cuts there, and asked again to the next pass", () => {
    expect(asked(30, 10.5, -1)).toBe(6);
    expect(asked(30, 10.5, 4)).toBe(8);
    expect(asked(30, 10.5, 99)).toBe(6);
  });
  test("a place that nothing passes leads nowhere", () => expect(asked(30, 40, -1)).toBeNull());
});
