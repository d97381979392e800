import { readFileSync } from "node:fs";
import { readDesign, recipe } from "@dryfit/joinery";
import { expect, test } from "vitest";
import { glueSection, orderSection } from "../src/build-assembly.ts";
import type { BuildSheetData } from "../src/build-data.ts";

/** The papers' sentences about a layered case, in one text. */
function told(section: (data: BuildSheetData) => unknown): string {
  const text = readFileSync(new URL("../../../samples/lantern.yaml", import.meta.url), "utf8");
  const read = readDesign(text, "lantern.yaml");
  if (!read.ok) throw new Error("not read");
  const assembly = recipe(read.value);
  const order = ["base", "rail-back", "rail-front", "cheek-left-inner", "cheek-left-outer"];
  return JSON.stringify(section({ assembly, order } as unknown as BuildSheetData));
}

test("layers are glued up first, and go in as one cheek", () => {
  const words = told(orderSection);
  expect(words).toMatch(/Glue up the left cheek on its pins: .*Lay down the base/);
  expect(words).toMatch(/Push the left cheek in from the left, until its shoulders close on the base, /);
  expect(words).not.toMatch(/outer layer in its place/);
  expect(told(glueSection)).not.toMatch(/outer layer/);
});
