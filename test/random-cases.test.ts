import { makeJob } from "@dryfit/job";
import { designText } from "@dryfit/joinery";
import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryDesign } from "../packages/joinery/test/arbitrary.ts";
import { drawerFor, WIDE_MACHINE } from "./random-shop.ts";

const CASES = Number(process.env.DRYFIT_CASES ?? 30);

test(`${CASES} random cases are made and proved`, { timeout: 1_500_000 }, async () => {
  await fc.assert(
    fc.asyncProperty(arbitraryDesign(), async (design) => {
      const file = { file: "any-case.yaml", text: designText(design) };
      const shop = { machine: WIDE_MACHINE, cutters: drawerFor(design) };
      const made = await makeJob({ design: file, ...shop, version: "test" });
      const errors = made.findings.filter(({ severity }) => severity === "error");
      expect(errors.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
      expect(made.outcome).toBe("made");
    }),
    { numRuns: CASES, seed: 20261125, endOnFailure: true },
  );
});
