import { checkLayout, nest, stepBudget } from "@dryfit/nest";
import fc from "fast-check";
import { expect, test } from "vitest";
import { anyJob } from "./anyJob.ts";

test("a thousand random jobs: every layout is sound, names what it left out, and comes out the same twice", () => {
  let jobs = 0;
  fc.assert(
    fc.property(anyJob, (job) => {
      const layout = nest(job, { budget: stepBudget(1500) });
      expect(checkLayout(job, layout)).toEqual([]);
      expect(new Set(layout.findings.map((f) => f.path))).toEqual(new Set(layout.unplaced));
      if (jobs++ % 10 === 0) expect(nest(job, { budget: stepBudget(1500) })).toEqual(layout);
    }),
    { numRuns: 1000, seed: 7 },
  );
}, 120_000);
