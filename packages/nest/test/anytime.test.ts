import { checkLayout, type NestJob, nest, nestWithin, stepBudget, timeBudget } from "@dryfit/nest";
import { expect, test } from "vitest";
import { board, pedalCase, sheet } from "./jobs.ts";

const JOB: NestJob = {
  parts: pedalCase(),
  stocks: [sheet(1220, 610)],
  rules: { spacing: 10, margin: 10 },
  seed: 1,
};

/** A clock that goes on by itself: every look at it takes `step` seconds. */
function clock(step: number): () => number {
  let at = 0;
  return () => {
    at += step;
    return at;
  };
}

test("more time gives no worse a layout, and its steps make it again", () => {
  const seen: number[] = [];
  const within = timeBudget(10, clock(0.1));
  const { layout, steps } = nestWithin(JOB, { within, first: 500, onProgress: (n) => seen.push(n.steps) });
  expect(checkLayout(JOB, layout)).toEqual([]);
  expect(nest(JOB, { budget: stepBudget(steps) })).toEqual(layout);
  expect(seen[0]).toBe(500);
  expect(seen.at(-1)).toBe(steps);
});

test("whoever interrupts gets the best layout so far", () => {
  let stop = false;
  const found = nestWithin(JOB, {
    within: timeBudget(1e9, clock(0.001), () => stop),
    first: 500,
    onProgress: () => {
      stop = true;
    },
  });
  expect(found.steps).toBe(500);
  expect(nest(JOB, { budget: stepBudget(500) })).toEqual(found.layout);
});

test("a job with nothing to improve does not wait for the time to pass", () => {
  const job = { ...JOB, parts: [board("only", 1200, 590)] };
  expect(nestWithin(job, { within: timeBudget(1e9, clock(1e-9)), first: 500 }).layout.sheets.length).toBe(1);
});
