import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { designJsonSchema, designText, readDesign, recipe, starterDesign } from "../src/index.ts";
import { plainCase, plainText, sample } from "./designs.ts";

/** A sound file of one line a key, so that places are easy to count. */
const lines = [
  "dryfit: 1",
  "name: case",
  "inside: { width: 300, depth: 200, front: 50, back: 80 }",
  "sheet:",
  "  thickness: 14.8",
  "  sizes: [[1220, 610]]",
  "joint:",
  "  tongue:",
  "    thickness: 7",
];

/** What is said of the file with one line put otherwise. */
function check(line: number, text: string, ...expected: readonly string[]): void {
  const file = lines.with(line - 1, text).join("\n");
  const read = readDesign(file, "case.yaml");
  expect(read.ok ? [] : read.problems.map((p) => p.message)).toEqual(expected);
}

describe("a file that cannot be read is answered with line, column, what was found and what is allowed", () => {
  test("a sound file", () => check(2, "name: case"));
  test("text where a length belongs", () =>
    check(
      5,
      "  thickness: thick",
      'case.yaml:5:14: sheet.thickness: found "thick"; allowed: a length from 3 mm to 40 mm, such as 540, 12.7 mm or 1/2 in, or a list of caliper readings',
    ));
  test("one reading of several", () =>
    check(
      5,
      "  thickness: [14.8, 148]",
      "case.yaml:5:21: sheet.thickness[1]: found 148; allowed: a length from 3 mm to 40 mm, such as 540, 12.7 mm or 1/2 in",
    ));
  test("a key of a sheet that there is not", () =>
    check(
      6,
      "  sizes: [{ size: [1220, 610], grian: x }]",
      'case.yaml:6:32: sheet.sizes[0].grian: found the unknown key "grian"; allowed: did you mean "grain"? Allowed here: id, size, grain, count, price, avoid',
    ));
  test("a locked part that is turned by an eighth", () =>
    check(
      6,
      "  sizes: [[1220, 610]]\n  locked: [{ part: base, x: 10, y: 10, turn: 45 }]",
      "case.yaml:7:46: sheet.locked[0].turn: found 45; allowed: 0, 90, 180 or 270 degrees",
    ));
  test("a unit that nobody knows", () =>
    check(
      9,
      "    thickness: 7 furlong",
      'case.yaml:9:16: joint.tongue.thickness: found "7 furlong"; allowed: a length from 1 mm to 30 mm, such as 540, 12.7 mm or 1/2 in',
    ));
  test("a negative length", () =>
    check(
      3,
      "inside: { width: -300, depth: 200, front: 50, back: 80 }",
      "case.yaml:3:18: inside.width: found -300; allowed: a length from 0.5 mm to 3000 mm, such as 540, 12.7 mm or 1/2 in",
    ));
  test("zero", () =>
    check(
      3,
      "inside: { width: 300, depth: 0, front: 50, back: 80 }",
      "case.yaml:3:30: inside.depth: found 0; allowed: a length from 0.5 mm to 3000 mm, such as 540, 12.7 mm or 1/2 in",
    ));
  test("a huge length", () =>
    check(
      3,
      "inside: { width: 3e9, depth: 200, front: 50, back: 80 }",
      "case.yaml:3:18: inside.width: found 3000000000; allowed: a length from 0.5 mm to 3000 mm, such as 540, 12.7 mm or 1/2 in",
    ));
  test("not a number", () =>
    check(
      3,
      "inside: { width: .nan, depth: 200, front: 50, back: 80 }",
      "case.yaml:3:18: inside.width: found a number that is none; allowed: a length from 0.5 mm to 3000 mm, such as 540, 12.7 mm or 1/2 in",
    ));
  test("a missing key, at the group that lacks it", () =>
    check(
      3,
      "inside: { width: 300, depth: 200, front: 50 }",
      'case.yaml:3:1: inside.back: found nothing: the key "back" is missing; allowed: a length from 0.5 mm to 3000 mm, such as 540, 12.7 mm or 1/2 in',
    ));
  test("an unknown key, with the one that was meant", () =>
    check(
      9,
      "    thicknes: 7",
      'case.yaml:9:5: joint.tongue.thicknes: found the unknown key "thicknes"; allowed: did you mean "thickness"? Allowed here: thickness, length',
    ));
  test("an unknown key that resembles none", () =>
    check(
      9,
      "    colour: 7",
      'case.yaml:9:5: joint.tongue.colour: found the unknown key "colour"; allowed: thickness, length',
    ));
  test("a key that stands twice", () =>
    check(
      2,
      "name: case\nname: other",
      "case.yaml:3:1: found a key that stands here twice; allowed: YAML 1.2, indented with spaces",
    ));
  test("a bracket that is not closed", () => {
    const read = readDesign(lines.with(5, "  sizes: [[1220, 610]").join("\n"), "case.yaml");
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.problems[0]!.message).toMatch(/^case\.yaml:7:1: found .*; allowed: YAML 1\.2/);
  });
  test("an alias that names nothing", () =>
    check(
      5,
      "  thickness: *t",
      "case.yaml:5:14: found *t, which names nothing; allowed: an alias of an anchor that stands before it",
    ));
  test("a choice that there is not", () =>
    check(
      7,
      "cheek: { crest: { form: wave } }\njoint:",
      'case.yaml:7:25: cheek.crest.form: found "wave"; allowed: "straight", "arc", "batten"',
    ));
  test("a version that we do not know", () =>
    check(1, "dryfit: 2", "case.yaml:1:9: dryfit: found 2; allowed: 1, the version of the design file"));
  test("an opening's measure that its shape does not have", () =>
    check(
      7,
      "openings: [{ panel: base, shape: circle, size: { hole: 30, width: 3 }, from: { left: 60, front: 60 } }]\njoint:",
      "case.yaml:7:67: openings[0].size.width: found 3; allowed: the measures of circle: hole",
    ));
  test("an opening without the size that it needs", () =>
    check(
      7,
      "openings: [{ panel: base, shape: circle, from: { left: 60, front: 60 } }]\njoint:",
      'case.yaml:7:12: openings[0].size.hole: found nothing: the key "hole" is missing; allowed: a length: circle has no size of its own',
    ));
  test("several problems, in the order of the file", () => {
    const file = lines.with(1, "name: A B").with(8, "    thickness: 0").join("\n");
    const read = readDesign(file, "case.yaml");
    expect(read.ok ? [] : read.problems.map((p) => [p.line, p.path])).toEqual([
      [2, "name"],
      [9, "joint.tongue.thickness"],
    ]);
  });
  for (const text of [
    "",
    "   \n",
    "# only a comment\n",
    "[1, 2]",
    "just text",
    "{",
    "\u0000",
    "---\na: 1\n---\nb: 2\n",
  ]) {
    test(`no design at all: ${JSON.stringify(text)}`, () => {
      const read = readDesign(text, "case.yaml");
      expect(read.ok).toBe(false);
      if (!read.ok) expect(read.problems[0]!.message).toMatch(/^case\.yaml:\d+:\d+: .*found .+; allowed: .+/);
    });
  }
  const monsters: Readonly<Record<string, string>> = {
    "brackets without end": "[".repeat(20_000),
    "groups without end": "{a: ".repeat(20_000),
    "a stair of keys": Array.from({ length: 3000 }, (_, i) => `${" ".repeat(i)}a:`).join("\n"),
    "a file of five million letters": `a: ${"x".repeat(5e6)}`,
    "twenty thousand unknown keys": Array.from({ length: 20_000 }, (_, i) => `k${i}: 1`).join("\n"),
    "a list as a key": "? [a, b]\n: 3",
    "a tag": "name: !secret 3",
    "a name that is more than a name": "dryfit: 1\nname: ../case",
    "a prototype": "__proto__: { x: 1 }",
  };
  for (const [name, text] of Object.entries(monsters)) {
    test(`${name} is refused in time`, () => {
      const read = readDesign(text, "case.yaml");
      expect(read.ok).toBe(false);
      if (!read.ok) expect(read.problems[0]!.message).toMatch(/^case\.yaml:\d+:\d+: .*found .+; allowed: .+/);
    }, 5_000);
  }
  test("brackets in a comment or in quotes are only letters", () => {
    const text = `# ${"[".repeat(80)}\n${lines.join("\n")}`.replace("14.8", `14.8 # ${"{".repeat(80)}`);
    expect(readDesign(text, "case.yaml").ok).toBe(true);
  });
  test("a heap of aliases is refused, not unfolded", () => {
    const bomb = [
      "a: &a [x,x,x,x,x,x,x,x,x]",
      ..."bcdefgh".split("").map((c, i) => {
        const before = "abcdefg"[i]!;
        return `${c}: &${c} [${Array.from({ length: 9 }, () => `*${before}`).join(",")}]`;
      }),
    ].join("\n");
    const read = readDesign(bomb, "case.yaml");
    expect(read.ok).toBe(false);
  });
});

describe("a file that can be read", () => {
  test("aliases stand for what they name", () => {
    const read = readDesign(
      lines.with(4, "  thickness: &t 14.8").with(8, "    thickness: 7\ncutter: 6").join("\n"),
      "case.yaml",
    );
    expect(read.ok && read.value.sheet.thickness.mean).toBe(14.8);
  });
  test("places are found by path, the nearest ancestor where a key is left out", () => {
    const read = readDesign(lines.join("\n"), "case.yaml");
    if (!read.ok) throw new Error("unreadable");
    expect(read.place("joint.tongue.thickness")).toEqual({ file: "case.yaml", line: 9, column: 16 });
    expect(read.place("joint.stop")).toEqual({ file: "case.yaml", line: 7, column: 1 });
    expect(read.place("sheet.sizes[0]")).toEqual({ file: "case.yaml", line: 6, column: 11 });
    expect(read.place("tier.height")).toEqual({ file: "case.yaml", line: 1, column: 1 });
  });
  test("inches: bare numbers, fractions, and a millimetre in between", () => {
    const { inside, cutter, joint } = sample("halyard");
    expect(inside.width).toBeCloseTo(22 * 25.4, 9);
    expect(inside.back).toBeCloseTo(4.5 * 25.4, 9);
    expect(joint.tongue.length).toBeCloseTo((7 / 32) * 25.4, 9);
    expect(cutter).toBe(6);
  });
  test("an inch file and a millimetre file of one case make one case", () => {
    const inches = plainText({ units: "in", inside: { width: 10, depth: "8", front: "2 1/2", back: 3.25 } });
    const read = readDesign(
      inches
        .replace("14.7", "14.7 mm")
        .replace("14.8", "14.8mm")
        .replace("14.9", "14.9mm")
        .replace("1220", "1220mm")
        .replace("610", "610mm")
        .replace("thickness: 7", "thickness: 7mm")
        .replace("6.8", "6.8mm"),
      "in.yaml",
    );
    if (!read.ok) throw new Error(read.problems.map((p) => p.message).join("\n"));
    const millimetres = plainCase({ inside: { width: 254, depth: 203.2, front: 63.5, back: 82.55 } });
    expect(recipe(read.value).parts).toEqual(recipe(millimetres).parts);
  });
  test("caliper readings give least, mean and most", () =>
    expect(plainCase().sheet.thickness).toEqual({ min: 14.7, mean: 14.8, max: 14.9 }));
});

describe("parts that are locked on a sheet", () => {
  const locked = (...list: readonly object[]) => plainCase({ "sheet.locked": list }).sheet.locked;
  test("lie on the first sheet of the first size, not turned, where nothing else is said", () =>
    expect(locked({ part: "base", x: "1 in", y: 20 })).toEqual([
      { part: "base", sheet: 1, size: "stock-1", x: 25.4, y: 20, turn: 0 },
    ]));
  test("a size that one of them names goes for all on that sheet", () => {
    const both = plainCase({
      "sheet.sizes": [[1220, 610], { id: "rest", size: [700, 400] }],
      "sheet.locked": [
        { part: "base", x: 10, y: 10, sheet: 2 },
        { part: "rail-back", x: 10, y: 300, sheet: 2, size: "rest" },
      ],
    });
    expect(both.sheet.locked.map(({ size }) => size)).toEqual(["rest", "rest"]);
  });
  test("stand in the design's text as they lie", () => {
    const design = plainCase({ "sheet.locked": [{ part: "base", x: "1/2 in", y: 30, turn: 90 }] });
    const read = readDesign(designText(design), "plain.yaml");
    expect(read.ok && read.value.sheet.locked).toEqual(design.sheet.locked);
  });
});

describe("defaults", () => {
  test("every default stands in the design's text, and reading it gives the same case", () => {
    for (const name of ["tidepool", "skiff", "halyard"] as const) {
      const design = sample(name);
      const read = readDesign(designText(design), name);
      if (!read.ok) throw new Error(read.problems.map((p) => p.message).join("\n"));
      expect(read.value).toEqual(design);
    }
  });
  test("the text leaves no key of the schema out", () => {
    const text = designText(sample("tidepool"));
    for (const key of [
      "margin",
      "web",
      "piece",
      "overhang",
      "above",
      "pin",
      "inset",
      "screw",
      "turn",
      "faces",
    ]) {
      expect(text).toContain(`${key}:`);
    }
  });
  test("a case of a few lines is a case", () => {
    const design = plainCase({ joint: undefined });
    expect(recipe(design).findings.filter((f) => f.severity === "error")).toEqual([]);
    expect(design.joint).toMatchObject({ tongue: { thickness: 7, length: 6.8 }, stop: 6 });
  });
  test("tongues and stop follow a thin sheet", () => {
    const design = plainCase({ joint: undefined, "sheet.thickness": 9, cutter: 3 });
    expect(recipe(design).findings.filter((f) => f.severity === "error")).toEqual([]);
  });
});

test("the starter file can be made as it is", () => {
  const read = readDesign(starterDesign(), "my-case.yaml");
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join("\n"));
  expect(recipe(read.value).findings.filter((f) => f.severity !== "note")).toEqual([]);
});

test("the JSON Schema for editors names every key of the file", () => {
  const schema = JSON.stringify(designJsonSchema());
  const keys = (value: unknown): string[] =>
    Array.isArray(value) || typeof value !== "object" || value === null
      ? []
      : Object.entries(value).flatMap(([key, inner]) => [key, ...keys(inner)]);
  for (const key of keys(parse(designText(sample("tidepool"))))) expect(schema).toContain(`"${key}"`);
});
