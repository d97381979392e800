import { readFileSync } from "node:fs";
import { needsFlip } from "@dryfit/gcode";
import { named, readDesign, recipe, together } from "@dryfit/joinery";
import { checkLayout, type Layout, type NestJob, nest, stepBudget } from "@dryfit/nest";
import { expect, test } from "vitest";
import { withFewestFlips } from "../src/fewest-flips.ts";
import { nestJob } from "../src/road.ts";
import { stocksOf } from "../src/stocks.ts";

const budget = () => stepBudget(400);

/** So many cases of one kind, as one job. */
function casesOf(sample: string, count: number): NestJob {
  const text = readFileSync(new URL(`../../../samples/${sample}.yaml`, import.meta.url), "utf8");
  const read = readDesign(text, `${sample}.yaml`);
  if (!read.ok) throw new Error("the sample cannot be read");
  const design = read.value;
  const cases = Array.from({ length: count }, (_, i) => named(recipe(design), `${sample}-${i + 1}`));
  return nestJob(design, together("batch", cases).parts, stocksOf(design));
}

function turned(job: NestJob, { sheets }: Layout): number {
  const twoFaced = new Set(job.parts.filter(needsFlip).map(({ id }) => id));
  return sheets.filter(({ parts }) => parts.some(({ part }) => twoFaced.has(part))).length;
}

test("four cases' rails lie together: one sheet is turned over where each would have been", () => {
  const job = casesOf("tidepool", 4);
  const first = nest(job, { budget: budget() });
  const layout = withFewestFlips(job, first, budget);
  expect(turned(job, first)).toBe(2);
  expect(layout.unplaced).toEqual([]);
  expect(layout.sheets.length).toBeLessThanOrEqual(first.sheets.length);
  expect(turned(job, layout)).toBe(1);
  expect(checkLayout(job, layout)).toEqual([]);
});

test("one sheet stays as it was laid", () => {
  const job = casesOf("tidepool", 1);
  const first = nest(job, { budget: budget() });
  expect(withFewestFlips(job, first, budget)).toBe(first);
});
