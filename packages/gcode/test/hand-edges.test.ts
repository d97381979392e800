import { readFileSync } from "node:fs";
import { type Part, readDesign, recipe } from "@dryfit/joinery";
import { expect, test } from "vitest";
import { defaultCutters } from "../src/default-shop.ts";
import { handEdges } from "../src/hand-edges.ts";

/** tidepool's parts, its rounded edges as one asks for them. */
function partsWith(more: string): readonly Part[] {
  const text = readFileSync(new URL("../../../samples/tidepool.yaml", import.meta.url), "utf8");
  const read = readDesign(text.replaceAll("radius: 3 }", `radius: 3${more} }`), "tidepool.yaml");
  if (!read.ok) throw new Error("the sample cannot be read");
  return recipe(read.value).parts;
}

test("edges that a cutter in the drawer could make are told of once, by panel", () => {
  const [told, ...more] = handEdges(partsWith(""), defaultCutters());
  expect(more).toEqual([]);
  expect(told).toMatchObject({ code: "edges_by_hand", path: "edges" });
  expect(told?.message).toContain("cheek-left, cheek-right, rail-front are left to the hand");
  expect(told?.message).toContain("round-3");
});

test.each([
  ["edges that the machine makes", ", by: cutter", defaultCutters()],
  [
    "edges for which the drawer holds nothing",
    "",
    defaultCutters().filter(({ kind }) => kind !== "round-over"),
  ],
])("nothing is said of %s", (_, more, cutters) => {
  expect(handEdges(partsWith(more), cutters)).toEqual([]);
});
