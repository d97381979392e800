import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { handToolsJsonSchema, readHandTools } from "../src/index.ts";

const good = `baseEdges: [{ id: flat, toMiddle: 72 }]
cutters:
  - { id: six, diameter: 6, cuttingLength: 25, reach: 40 }
bushes:
  - { id: b, diameter: 16, projection: 8 }
template: { thickness: 12 }
`;

describe("a file of hand tools", () => {
  function check(change: readonly [string, string], place: string, words: RegExp) {
    const read = readHandTools(good.replace(...change), "tools.yaml");
    if (read.ok) throw new Error("it was read");
    expect(read.problems.map(({ message }) => message).join("\n")).toMatch(words);
    const { line, column } = read.problems[0]!;
    expect(`${line}:${column}`).toBe(place);
  }
  test("that ships is read", () => {
    const file = new URL("../../../samples/shop/hand-router.yaml", import.meta.url);
    const read = readHandTools(readFileSync(file, "utf8"), "hand-router.yaml");
    expect(read.ok).toBe(true);
  });
  test("fills in what is usual: passes of half the diameter, nobody's kerf", () => {
    const read = readHandTools(good, "tools.yaml");
    expect(read.ok && read.value).toMatchObject({
      table: false,
      cutters: [{ kind: "straight", depthPerPass: 3, bearings: [] }],
      template: { running: 0.15, margin: 40 },
      laser: { kerf: 0, allowance: "service" },
    });
  });
  test("in inches has bare inches", () => {
    const read = readHandTools(
      'units: in\nbaseEdges: [{ id: f, toMiddle: 2 7/8 }]\ncutters: [{ id: q, diameter: 1/4, cuttingLength: 1, reach: 1.5 }]\ntemplate: { thickness: "12 mm" }\n',
      "t",
    );
    expect(read.ok && [read.value.cutters[0]!.diameter, read.value.template.thickness]).toEqual([6.35, 12]);
  });
  test("names a key that it does not know", () => check(["bushes", "bushs"], "4:1", /did you mean "bushes"/));
  test("refuses a cutter of no width", () =>
    check(["diameter: 6,", "diameter: 0,"], "3:26", /a length from 1.5 mm to 80 mm/));
  test("refuses a length that is none", () =>
    check(["reach: 40", "reach: long"], "3:55", /found "long"; allowed: a length/));
  test("refuses a bush that stands in by minus 8", () =>
    check(["projection: 8", "projection: -8"], "5:40", /a length from/));
  test("wants to know the template's thickness", () =>
    check(["template: { thickness: 12 }\n", ""], "1:1", /template: found nothing/));
  test("refuses two cutters of one name", () =>
    check(
      ["bushes:", "  - { id: six, diameter: 8, cuttingLength: 25, reach: 40 }\nbushes:"],
      "4:11",
      /a name that no other/,
    ));
  test("asks a slotting disc for its arbor", () =>
    check(["{ id: six,", "{ id: six, kind: slotting,"], "3:5", /slotting disc sits on an arbor/));
  test("has a schema for editors", () => expect(handToolsJsonSchema()).toMatchObject({ type: "object" }));
});
