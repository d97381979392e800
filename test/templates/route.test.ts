import { planBench, type Template } from "@dryfit/bench";
import { flatten, type Region } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { SAMPLES } from "../sample.ts";
import { caseOf, python, TOOLS, TOOLS_WITHOUT_BEARING, toolsOf } from "./bench.ts";

interface Verdict {
  readonly gouge: number;
  readonly left: number;
}

const points = (regions: readonly Region[]) =>
  regions.map(({ outer }) => flatten(outer, 0.0005).map(({ x, y }) => [x, y]));

/** Guide and cutter run round each template by an outside library. */
function routed(templates: readonly Template[], contours = (t: Template) => t.contours): readonly Verdict[] {
  return python<readonly Verdict[]>(
    "routes.py",
    templates.map((template) => ({
      kind: template.kind,
      template: points(contours(template)),
      guide: template.fit.guide.diameter,
      cutter: template.fit.cutter.diameter,
      design: points(template.finished),
    })),
  );
}

/** What the parts themselves want there, not what the template says that it cuts. */
describe.each(SAMPLES)("the route round the templates of %s", (name) => {
  const { templates, findings } = planBench(caseOf(name), toolsOf(TOOLS));

  test("is planned without an error", () => {
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(templates.length).toBeGreaterThan(3);
  });

  test("gives the designed housings, pockets and openings within 0.02 mm", () => {
    const inside = templates.filter(({ kind }) => kind === "inside");
    for (const { gouge, left } of routed(inside)) {
      expect(gouge).toBeLessThan(0.02);
      expect(left).toBeLessThan(0.02);
    }
  });

  test("gives the outlines, and leaves less than a tenth in a corner tighter than the cutter", () => {
    const outside = templates.filter(({ kind }) => kind === "outside");
    for (const { gouge, left } of routed(outside)) {
      expect(gouge).toBeLessThan(0.02);
      expect(left).toBeLessThan(0.1);
    }
  });

  test("covers every housing: both templates together are the recess in the part", () => {
    const cheek = caseOf(name).parts.find(({ id }) => id === "cheek-left")!;
    const recess = cheek.features.find((f) => f.kind === "recess" && f.purpose === "housing")!;
    const housings = templates.filter(({ id }) => id.startsWith("cheek-left-housing"));
    expect(housings).toHaveLength(2);
    const together = python<readonly Verdict[]>("routes.py", [
      {
        kind: "inside",
        // A guide as wide as the cutter over the pieces themselves: what is removed is their union.
        template: housings.flatMap(({ finished }) => points(finished)),
        guide: 0.001,
        cutter: 0.001,
        design: recess.kind === "recess" ? points([recess.region]) : [],
      },
    ]);
    expect(together[0]!.gouge).toBeLessThan(0.02);
    expect(together[0]!.left).toBeLessThan(0.02);
  });
});

test("a bush round an outline takes the sharp corners, as it is told beforehand", () => {
  const { templates, findings } = planBench(caseOf("tidepool"), toolsOf(TOOLS_WITHOUT_BEARING));
  const cheek = templates.filter(({ id }) => id === "cheek-left-outline");
  expect(cheek[0]!.fit.guide.kind).toBe("bush");
  expect(findings.map(({ code }) => code)).toContain("corner_rounded");
  // A right angle rounded by o loses o (√2 − 1) at its point, a sharper foot a little more.
  const [verdict] = routed(cheek);
  expect(verdict!.gouge).toBeGreaterThan(0.8 * cheek[0]!.fit.offset * (Math.SQRT2 - 1));
  expect(verdict!.gouge).toBeLessThan(1.5 * cheek[0]!.fit.offset * (Math.SQRT2 - 1));
});

test("a template with the offset on the wrong side is seen: the judge is no rubber stamp", () => {
  const { templates } = planBench(caseOf("tidepool"), toolsOf(TOOLS));
  const housing = templates.filter(({ id }) => id === "cheek-left-housing-level");
  const [verdict] = routed(housing, ({ finished }) => finished);
  expect(Math.max(verdict!.gouge, verdict!.left)).toBeGreaterThan(1);
});
