import { readFileSync } from "node:fs";
import { readDesign, recipe } from "@dryfit/joinery";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { arbitraryDesign } from "../../joinery/test/arbitrary.ts";
import { byHand } from "../src/by-hand.ts";
import { type BenchPlan, benchFindingMeanings, planBench, readHandTools } from "../src/index.ts";

const read = (file: string): string =>
  readFileSync(new URL(`../../../samples/${file}`, import.meta.url), "utf8");

const SHOP = read("shop/hand-router.yaml");

function planned(
  change: { tools?: (text: string) => string; design?: (text: string) => string } = {},
): BenchPlan {
  const { tools = (t: string) => t, design = (t: string) => t } = change;
  const shop = readHandTools(tools(SHOP), "tools.yaml");
  const given = readDesign(design(read("tidepool.yaml")), "tidepool.yaml");
  if (!shop.ok || !given.ok) throw new Error("cannot be read");
  return planBench(recipe(given.value), shop.value);
}

const figures = (plan: BenchPlan, id: RegExp, what: RegExp) =>
  plan.steps
    .find((step) => id.test(step.id))!
    .figures.find((figure) => what.test(figure.what))!
    .mm.map((v) => Number(v.toFixed(2)));

describe("the settings of tidepool (its worked numbers, and sums of them)", () => {
  const plan = planned();
  const check = (id: RegExp, what: RegExp, expected: readonly number[]) =>
    expect(figures(plan, id, what)).toEqual(expected);

  test("saw the base 553.6 by 349.6", () => check(/^saw-blanks$/, /^base$/, [553.6, 349.6]));
  test("groove the rails 7.7 from the bottom edge, then 1.2 farther", () =>
    check(/^groove/, /fence/, [7.7, 8.9]));
  test("groove them 7.2 deep", () => check(/^groove/, /above the table/, [2.4, 4.8, 7.2]));
  test("rebate 7.8 deep and 6.8 wide, for a tongue of 7", () => {
    check(/^rebates$/, /above the table/, [3.9, 7.8]);
    check(/^rebates$/, /fence/, [6.8]);
    check(/^rebates$/, /tongue/, [7]);
  });
  test("clamp the straightedge 69 from the housing's wall: half the base, 72, less half the cutter", () => {
    const [low, high] = figures(plan, /^fence-cheek-left-x/, /walls/);
    expect(high! - low!).toBeCloseTo(7.2, 9);
    check(/^fence-cheek-left-x/, /^straightedge/, [high! + 69]);
  });
  test("come in an order in which tongues are tried in housings already cut", () => {
    const at = (id: RegExp) => plan.steps.findIndex((step) => id.test(step.id));
    expect(at(/housing/)).toBeLessThan(at(/^rebates$/));
    expect(at(/^rebates$/)).toBeLessThan(at(/^saw-corners$/));
    expect(at(/cheek-right-out/)).toBeLessThan(at(/outline/));
  });
});

test("both cheeks take one template, turned over for the right one", () => {
  const outline = planned().templates.find(({ id }) => id === "cheek-left-outline")!;
  expect(outline.uses.map(({ part, mirrored }) => [part, mirrored])).toEqual([
    ["cheek-left", false],
    ["cheek-right", true],
  ]);
});

test("without a table grooves and rebates are cut by hand", () => {
  const plan = planned({ tools: (text) => text.replace("table: true", "table: false") });
  expect(plan.steps.find(({ id }) => id === "rebates")!.title).toContain("edge guide");
  expect(figures(plan, /^fence-rail-front/, /walls/)).toEqual([7.7, 14.9]);
  expect(plan.findings.map(({ code }) => code)).toContain("fence_off_part");
});

test("a sheet more uneven than the fit's air warns that tongues follow it", () => {
  const plan = planned({
    design: (text) => text.replace("thickness: 14.8", "thickness: [14.5, 14.8, 15.1]"),
  });
  const [warning] = plan.findings.filter(({ code }) => code === "tongue_varies");
  expect(warning).toMatchObject({ severity: "warning", numbers: { tongue: 7 } });
  expect(warning!.numbers.thick! - warning!.numbers.thin!).toBeCloseTo(0.6, 9);
});

test("a slot as wide as its cutter is told to come out wider by the air that the bush needs", () => {
  const plan = planned({
    tools: (text) =>
      text.replace("diameter: 6\n", "diameter: 7.2\n").replace("diameter: 10,", "diameter: 12,"),
    design: (text) => text.replace("cutter: 6 ", "cutter: 7.2 "),
  });
  const [warning] = plan.findings.filter(({ code }) => code === "slot_close");
  expect(warning!.numbers.wider).toBeCloseTo(0.15, 3);
});

test("any design that can be made is planned, or refused under a known code, and no template goes astray", () => {
  const shop = readHandTools(SHOP, "tools.yaml");
  if (!shop.ok) throw new Error("cannot be read");
  fc.assert(
    fc.property(arbitraryDesign(), (design) => {
      const { findings } = planBench(recipe(byHand(design).design), shop.value);
      for (const { code } of findings) {
        expect(Object.keys(benchFindingMeanings)).toContain(code);
        expect(code).not.toBe("template_off");
      }
    }),
    { numRuns: Number(process.env.DRYFIT_CASES ?? 8), seed: 5 },
  );
});

test("a relieved opening is routed round by hand, and that is told", () => {
  const given = readDesign(
    read("tidepool.yaml").replace(
      "openings:",
      "openings:\n  - { id: in, panel: cheek-left, shape: rectangle, size: { width: 30, height: 20 }, relief: diagonal, from: { back: 60, floor: 85 } }",
    ),
    "case.yaml",
  );
  if (!given.ok) throw new Error(JSON.stringify(given.problems));
  const { design, findings } = byHand(given.value);
  expect(findings.map(({ code, path }) => [code, path])).toEqual([["relief_by_hand", "openings.in"]]);
  expect(design.openings.map(({ relief }) => relief)).toEqual(["none", "none"]);
});
