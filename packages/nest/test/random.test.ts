import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { flatten, type Loop, placeRegion, type Region } from "@dryfit/geometry";
import { checkLayout, type Layout, type NestJob, nest, regionOfPart, stepBudget } from "@dryfit/nest";
import fc from "fast-check";
import { expect, test } from "vitest";
import { anyJob } from "./anyJob.ts";
import { board, box, loop, sheet } from "./jobs.ts";

const CASES = Number(process.env.DRYFIT_CASES ?? 30);
const FEW_STEPS = 1500;

test(`${CASES} random jobs: every layout is sound, names what it left out, and comes out the same twice`, () => {
  const lines: string[] = [];
  fc.sample(anyJob, { numRuns: CASES, seed: 7 }).forEach((job, k) => {
    const layout = nest(job, { budget: stepBudget(FEW_STEPS) });
    expect(checkLayout(job, layout)).toEqual([]);
    expect(new Set(layout.findings.map((f) => f.path))).toEqual(new Set(layout.unplaced));
    if (k % 10 === 0) expect(nest(job, { budget: stepBudget(FEW_STEPS) })).toEqual(layout);
    lines.push(...casesFor(job, layout, k));
  });
  expect(judge(lines)).toBe("");
}, 600_000);

test("the outside judge objects to a layout that is not sound", () => {
  const parts = [board("a", 100, 100), board("b", 100, 100)];
  const job: NestJob = { parts, stocks: [sheet(500, 400)], rules: { spacing: 10, margin: 10 }, seed: 1 };
  const at = (part: string, x: number) => ({
    part,
    placement: { flip: false, quarters: 0 as const, angle: 0, shift: { x, y: 20 } },
  });
  const layout = (x: number): Layout => ({
    sheets: [{ id: "sheet-1", stock: job.stocks[0]!, parts: [at("a", 10), at("b", x)] }],
    unplaced: [],
    findings: [],
  });
  expect(judge(casesFor(job, layout(120), 1))).toBe("");
  expect(judge(casesFor(job, layout(119.9), 1))).toContain("a and b are 9.9000 apart");
  expect(judge(casesFor(job, layout(60), 1))).toContain("share wood");
  expect(judge(casesFor(job, layout(395), 1))).toContain("b is too near to the edge");
});

/** Source: shapely, run as its own process on the true outlines. */
function judge(lines: readonly string[]): string {
  const script = fileURLToPath(new URL("outside.py", import.meta.url));
  const run = spawnSync("/usr/bin/python3", [script], { input: lines.join("\n"), encoding: "utf8" });
  return run.stderr + run.stdout;
}

function casesFor(job: NestJob, layout: Layout, number: number): string[] {
  const parts = new Map(job.parts.map((part) => [part.id, part]));
  return layout.sheets.map(({ stock, parts: placed }) =>
    JSON.stringify({
      job: number,
      ...job.rules,
      sheet: rings(stock.outline ?? { outer: loop(box(...stock.size)), holes: [] }),
      keepOuts: stock.keepOuts.map(rings),
      parts: placed.map(({ part, placement }) => ({
        id: part,
        rings: rings(placeRegion(placement, regionOfPart(parts.get(part)!))),
      })),
    }),
  );
}

function rings(region: Region): number[][][] {
  return [region.outer, ...region.holes].map((l: Loop) => flatten(l).map(({ x, y }) => [x, y]));
}
