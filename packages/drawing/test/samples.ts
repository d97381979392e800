import { readFileSync } from "node:fs";
import { type Assembly, type Design, readDesign, recipe } from "@dryfit/joinery";

export function sampleDesign(name: string): Design {
  const file = new URL(`../../../samples/${name}.yaml`, import.meta.url);
  const read = readDesign(readFileSync(file, "utf8"), `${name}.yaml`);
  if (!read.ok) throw new Error(read.problems.map((problem) => problem.message).join("\n"));
  return read.value;
}

export function sampleCase(name: string): Assembly {
  return recipe(sampleDesign(name));
}

export const sampleNames = ["tidepool", "skiff", "halyard"] as const;
