import { sheetSvg } from "@dryfit/drawing";
import { describe, expect, test } from "vitest";
import { elements, isWellFormed, textsOf } from "./markup.ts";
import { oneFace, program, roundTrip, twoFaces } from "./pictures.ts";

const svg = sheetSvg(oneFace);

test("the drawing is well formed, whatever the design is called", () => {
  expect(isWellFormed(svg)).toBe(true);
  expect(isWellFormed(sheetSvg(twoFaces))).toBe(true);
});

test("the same sheet gives the same bytes", () => expect(sheetSvg(oneFace)).toBe(svg));

test("every part is named, with its size as drawn in the exported file", () => {
  const words = textsOf(svg);
  for (const text of ["lid", "300 × 200", "face A up (inside)"]) expect(words).toContain(text);
  expect(words.some((line) => line.startsWith("slat-1"))).toBe(true);
});

test("every recess is hatched by its own depth, and the depth is written once", () => {
  const recesses = elements(svg, "path").filter(({ class: c }) => c?.startsWith("recess"));
  expect(recesses.map((r) => r["data-depth"])).toEqual(["7.2", "4"]);
  for (const { fill } of recesses) expect(svg).toContain(`id="${/#(.*)\)/.exec(fill!)![1]}"`);
  expect(textsOf(svg).filter((line) => line === "7.2 deep")).toHaveLength(1);
  expect(textsOf(svg).filter((line) => line === "4 deep")).toHaveLength(1);
});

test("a recess of the far face is dashed", () => {
  const far = elements(svg, "path").find((p) => p["data-depth"] === "4")!;
  expect(far.class).toBe("recess face-b hidden");
});

test("holes of one kind share one note", () => expect(textsOf(svg)).toContain("2 × Ø3.2 through"));

test("the sheet's size is dimensioned", () =>
  expect(textsOf(svg)).toEqual(expect.arrayContaining(["600", "300"])));

test("the proof's sentence stands in the title block", () =>
  expect(textsOf(svg)).toContain("Proved: widest error 0.004 mm, nothing touches."));

test("a sheet that is not proved is marked by another shape, not by colour alone", () => {
  const refused = sheetSvg({
    ...oneFace,
    verdict: { pass: false, sentence: "Not provable yet: 2 things to mend." },
  });
  expect(refused).toContain('class="refused"');
  expect(svg).not.toContain('class="refused"');
});

test("a tab breaks the outline and is closed by two bars", () => {
  const tabs = elements(svg, "path").filter(({ class: c }) => c === "tab");
  expect(tabs[0]!.d!.match(/M/g)).toHaveLength(2);
});

test("heavier lines mean more passes", () => {
  const weightsFor = (heights: readonly number[]) => {
    const motions = roundTrip({ x: 17, y: 17, z: 0 }, { x: 323, y: 223, z: 0 }, heights);
    const drawn = sheetSvg({ ...oneFace, programs: [program("a.nc", "A", motions)] });
    const view = drawn.slice(0, drawn.indexOf('class="legend"'));
    return elements(view, "path").flatMap((p) => (p["stroke-width"] ? [Number(p["stroke-width"])] : []));
  };
  expect(Math.max(...weightsFor([0]))).toBe(0.18);
  expect(Math.max(...weightsFor([10, 5, 0]))).toBeGreaterThan(Math.max(...weightsFor([5, 0])));
});

test("a screen reader is told what the sheet holds", () => {
  expect(svg).toMatch(/role="img" aria-labelledby="sheet-1-title sheet-1-desc"/);
  expect(svg).toMatch(/<desc[^>]*>[^<]*holds lid, slat-1\.[^<]*sheet-1-a-1\.nc/);
});

describe("a sheet that is turned over", () => {
  const both = sheetSvg(twoFaces);
  test("is drawn once for each face", () =>
    expect(textsOf(both).filter((line) => /^Setup [AB]: face [AB] up/.test(line))).toHaveLength(2));
  test("shows the line that it is turned about", () => expect(both).toContain('class="fold"'));
  test("shows face B's recess solid where face B is up, and face A's dashed", () => {
    const lower = both.slice(both.indexOf("face-b-up"));
    const kinds = elements(lower, "path").filter((p) => p["data-depth"]);
    expect(kinds.map((p) => [p["data-depth"], p.class])).toEqual([
      ["7.2", "recess hidden"],
      ["4", "recess face-b"],
    ]);
  });
  test("without a line to turn about, it cannot be drawn", () =>
    expect(() => sheetSvg({ ...twoFaces, flip: null })).toThrow(RangeError));
});

test("words of notes never lie on one another", () => {
  const notes = [...svg.matchAll(/<g class="note">(.*?)<\/g>/g)].map((m) => boxOf(m[1]!));
  notes.forEach((a, i) => {
    for (const b of notes.slice(i + 1))
      expect(a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1).toBe(false);
  });
});

/** A modest box round the words of a note: half as wide as its letters are tall, each. */
function boxOf(note: string) {
  const lines = elements(note, "text");
  const words = textsOf(note);
  const half = Math.max(...lines.map((line, i) => (words[i]!.length * Number(line["font-size"])) / 4));
  const ys = lines.map((line) => Number(line.y));
  const x = Number(lines[0]!.x);
  return { x0: x - half, x1: x + half, y0: Math.min(...ys) - 2, y1: Math.max(...ys) };
}
