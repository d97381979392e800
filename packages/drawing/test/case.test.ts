import { caseDrawing, explodedDrawing } from "@dryfit/drawing";
import { areaOf, boundsOf } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { boxOfCase, fromRight, poseOf, sectionOf } from "../src/standing.ts";
import { elements, isWellFormed, textsOf } from "./markup.ts";
import { sampleCase, sampleNames } from "./samples.ts";

const title = { revision: "A1", material: "birch plywood", thickness: "14.8 mm", verdict: null };
const tidepool = sampleCase("tidepool");

describe.each(sampleNames)("%s", (name) => {
  const assembly = sampleCase(name);
  const svg = caseDrawing(assembly, title);

  test("its drawings are well formed and repeat byte for byte", () => {
    expect(isWellFormed(svg)).toBe(true);
    expect(isWellFormed(explodedDrawing(assembly))).toBe(true);
    expect(caseDrawing(assembly, title)).toBe(svg);
  });

  test("the inside measures stand plain, the outside in brackets", () => {
    const { inside, outside } = assembly;
    const words = textsOf(svg);
    for (const mm of [inside.width, inside.depth, inside.front, inside.back])
      expect(words).toContain(String(Number(mm.toFixed(1))));
    for (const mm of [outside.width, outside.depth, outside.height])
      expect(words).toContain(`(${Number(mm.toFixed(1))})`);
  });

  test("every part is named where the parts lie apart", () => {
    const words = textsOf(explodedDrawing(assembly));
    for (const part of assembly.parts) expect(words).toContain(part.title);
  });

  test("all that is drawn lies on the paper", () => {
    const [, , width, height] = /viewBox="([^"]*)"/.exec(svg)![1]!.split(" ").map(Number) as number[];
    for (const { x, y } of elements(svg, "text")) {
      expect(Number(x) >= 0 && Number(x) <= width!).toBe(true);
      expect(Number(y) >= 0 && Number(y) <= height!).toBe(true);
    }
  });
});

test("the case as it stands is as large as it says", () => {
  const { min, max } = boxOfCase(tidepool);
  // Worked numbers of the case: 569.6 wide, 365.6 deep.
  expect(max.x - min.x).toBeCloseTo(569.6, 9);
  expect(max.y - min.y).toBeCloseTo(365.6, 9);
});

test("the base cut through the middle is a slab with a tongue at both ends", () => {
  const base = tidepool.parts.find(({ id }) => id === "base")!;
  const wood = sectionOf(fromRight, base, poseOf(tidepool, base), tidepool.inside.width / 2);
  // derived: 336 × 14.8 and two tongues of 6.8 × 7
  expect(areaOf(wood)).toBeCloseTo(336 * 14.8 + 2 * 6.8 * 7, 6);
  const box = boundsOf(wood.map(({ outer }) => outer));
  expect([box.min.x, box.min.y, box.max.x, box.max.y]).toEqual(
    [-6.8, -14.8, 342.8, 0].map((v) => expect.closeTo(v, 9)),
  );
});

test("a rail cut through the middle has lost its groove", () => {
  const rail = tidepool.parts.find(({ id }) => id === "rail-back")!;
  const wood = sectionOf(fromRight, rail, poseOf(tidepool, rail), tidepool.inside.width / 2);
  // derived: 136.8 × 14.8 less a groove of 7.2 × 7.2
  expect(areaOf(wood)).toBeCloseTo(136.8 * 14.8 - 7.2 * 7.2, 6);
});

test("a plane beside the case cuts no wood", () => {
  for (const part of tidepool.parts)
    expect(sectionOf(fromRight, part, poseOf(tidepool, part), 2000)).toEqual([]);
});

test("a level case shows no rake", () =>
  expect(textsOf(caseDrawing(sampleCase("skiff"), title)).some((line) => line.startsWith("rake"))).toBe(
    false,
  ));

test("a raked one says its angle", () =>
  // atan(26 / 365.6) = 4.068°
  expect(textsOf(caseDrawing(tidepool, title))).toContain("rake (4.1°)"));
