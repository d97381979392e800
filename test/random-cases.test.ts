import { makeJob, type OutFile } from "@dryfit/job";
import { type Design, designText } from "@dryfit/joinery";
import { loadSolidKernel } from "@dryfit/verify";
import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryDesign } from "../packages/joinery/test/arbitrary.ts";
import { anyMachine, drawerFor } from "./random-shop.ts";

/**
 * As many as all tests together have time for on two cores. DRYFIT_CASES=500 DRYFIT_SEED=7 for a long run, in which each
 * case is made twice; DRYFIT_FROM=250 begins there, so that two runs share the cases. Recesses with a held engagement,
 * whose paths are minutes of work a case, come with DRYFIT_HELD=1, and have a test of their own.
 */
const IS_LONG = process.env.DRYFIT_CASES !== undefined;
const CASES = Number(process.env.DRYFIT_CASES ?? 5);
const SEED = Number(process.env.DRYFIT_SEED ?? 20261125);
const FROM = Number(process.env.DRYFIT_FROM ?? 0);
const HELD = process.env.DRYFIT_HELD !== undefined;
const MADE_AGAIN = IS_LONG ? 1 : 5;

test(`${CASES} random cases on random routers are made and proved, and the same again`, {
  timeout: 6_000_000,
}, async () => {
  const kernel = await loadSolidKernel();
  let count = 0;
  await fc.assert(
    fc.asyncProperty(arbitraryDesign(), anyMachine(HELD), async (design, machine) => {
      if (count++ < FROM) return;
      const input = {
        design: { file: "any-case.yaml", text: designText(design) },
        machine: onBed(machine, design),
        cutters: drawerFor(design),
        version: "test",
      };
      const made = await makeJob(input, () => {}, kernel);
      const errors = made.findings.filter(({ severity }) => severity === "error");
      expect(errors.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
      expect(made.outcome).toBe("made");
      if (count % 10 === 0 && IS_LONG) process.stdout.write(`${count} cases made and proved\n`);
      if (count % MADE_AGAIN > 0) return;
      const again = await makeJob(input, () => {}, kernel);
      expect(again.files).toEqual(made.files);
    }),
    { numRuns: CASES, seed: SEED, endOnFailure: true },
  );
});

/**
 * Where readings differ, zero lies on the bed: with zero on the upper face tongues would be as much thicker as the
 * sheet is, and the plan refuses that rightly.
 */
function onBed(machine: OutFile, { sheet: { thickness } }: Design): OutFile {
  if (thickness.min === thickness.max) return machine;
  return { ...machine, text: machine.text.replace('"zZero": "top"', '"zZero": "bed"') };
}
