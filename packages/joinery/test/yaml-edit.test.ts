import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { type Plain, withItem, without, withValue } from "../src/yaml-edit.ts";

const tidepool = readFileSync(new URL("../../../samples/tidepool.yaml", import.meta.url), "utf8");

function check(text: string, path: string, value: Plain, expected: string): void {
  expect(withValue(text, path, value)).toBe(expected);
}

test("a changed figure leaves every other byte as it was", () =>
  check(tidepool, "inside.front", 50, tidepool.replace("front: 46     #", "front: 50     #")));
test("a figure in a flow group is changed in its place", () =>
  check(tidepool, "joint.clearance.side", 0.15, tidepool.replace("side: 0.1,", "side: 0.15,")));
test("an item of a list is changed in its place", () =>
  check(tidepool, "sheet.sizes[0][1]", 1220, tidepool.replace("610]", "1220]")));
test("a missing key goes to the end of its group, as deep as its neighbours", () =>
  check(
    "inside:\n  width: 1 # wide\nname: a\n",
    "inside.depth",
    2,
    "inside:\n  width: 1 # wide\n  depth: 2\nname: a\n",
  ));
test("a missing group is made", () => check("name: a\n", "tier.slats", 2, "name: a\ntier: { slats: 2 }\n"));
test("a missing key of a flow group goes before its brace", () =>
  check("a: { b: 1 }\n", "a.c", "1/2 in", "a: { b: 1, c: 1/2 in }\n"));
test("a group that is written empty is filled", () =>
  check("tier:\nname: a\n", "tier.slats", 2, "tier: { slats: 2 }\nname: a\n"));
test("text that reads as something else is quoted", () =>
  check("name: a\n", "name", "true", 'name: "true"\n'));
test("an inch mark stands bare", () => check("a: 1\n", "a", '1 3/8"', 'a: 1 3/8"\n'));
test("a text that is no YAML is not edited", () => expect(withValue("a: [", "a", 1)).toBeNull());
test("an item is added to a list, and a list made where there is none", () => {
  expect(withItem("name: a\n", "edges", { radius: 3 })).toContain("radius: 3");
  expect(without(withItem("edges: []\n", "edges", { radius: 3 })!, "edges[0]")).toContain("edges: []");
});

test("readings replace a figure, one line in brackets", () =>
  expect(withValue("sheet:\n  thickness: 14.8  # caliper\n", "sheet.thickness", [14.7, 14.9])).toBe(
    "sheet:\n  thickness: [14.7, 14.9]  # caliper\n",
  ));

test("readings replace readings that stand below one another", () =>
  expect(
    withValue("sheet:\n  thickness:\n    - 14.7\n    - 14.8\n  name: birch\n", "sheet.thickness", [14.9]),
  ).toBe("sheet:\n  thickness:\n    [14.9]\n  name: birch\n"));

function checkItem(text: string, path: string, expected: string): void {
  const added = withItem(text, path, { part: "base", x: 20 });
  expect(added).toBe(expected);
}

test("the first item of a list goes below its group's last line, and nothing else moves", () =>
  checkItem(
    tidepool,
    "sheet.locked",
    tidepool.replace(
      "along the first measure\n",
      "along the first measure\n  locked:\n    - { part: base, x: 20 }\n",
    ),
  ));
test("another item of a list goes below the last, as deep as the first", () =>
  checkItem("a:\n  - b: 1  # one\nc: 2\n", "a", "a:\n  - b: 1  # one\n  - { part: base, x: 20 }\nc: 2\n"));
test("another item of a list in brackets goes before its bracket", () =>
  checkItem("a: [ { b: 1 } ]   # one\n", "a", "a: [ { b: 1 }, { part: base, x: 20 }]   # one\n"));
test("an item taken away takes its line, and leaves the rest as it stands", () =>
  expect(without("a:   # list\n  - { b: 1 }\n  - { b: 2 }  # two\nc:   3\n", "a[1]")).toBe(
    "a:   # list\n  - { b: 1 }\nc:   3\n",
  ));
test("an item of several lines is taken away whole", () =>
  expect(without("a:\n  - b: 1\n    c: 2\n  - b: 2\n", "a[0]")).toBe("a:\n  - b: 2\n"));
test("a key taken away takes its group", () =>
  expect(without(withItem(tidepool, "sheet.locked", { part: "base" })!, "sheet.locked")).toBe(tidepool));
test("what is taken out of a line leaves a file that reads as it should", () =>
  expect(without("a: { b: 1, c: 2 } # two\n", "a.b")).toBe("a: { c: 2 } # two\n"));
