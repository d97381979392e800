import { CONTACT_MM } from "@dryfit/geometry";
import * as fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { type DryFit, dryFit } from "../src/dryfit.ts";
import { loadSolidKernel, type SolidKernel } from "../src/solids.ts";
import { assemblyOf, cutPartsOf, type HandMade, handMade } from "./dryfit-case.ts";

let kernel: SolidKernel;
beforeAll(async () => {
  kernel = await loadSolidKernel();
});

function fitOf(given: Partial<HandMade> = {}): DryFit {
  const numbers = handMade(given);
  return dryFit(
    kernel,
    assemblyOf(numbers),
    () => cutPartsOf(numbers),
    () => 680,
  );
}

function joint(fit: DryFit, id: string) {
  return fit.joints.find((each) => each.id === id)!;
}

/** A fault in the cutting, the findings that name it, and what the joint then shows. */
function check(given: Partial<HandMade>, codes: readonly string[], id: string, shown: object) {
  const fit = fitOf(given);
  expect([...new Set(fit.findings.map((finding) => finding.code))].sort()).toEqual([...codes].sort());
  expect(joint(fit, id)).toMatchObject(shown);
}

/** Measured lengths are float32 near their joint: within a thousandth of what we print. */
function near(value: number, digits = 4) {
  return expect.closeTo(value, digits);
}

describe("a case cut as designed", () => {
  test("goes together: every joint has the air that was asked for, and no more", () => {
    const fit = fitOf();
    expect(fit.findings).toEqual([]);
    expect(fit.joints).toHaveLength(8);
    for (const proof of fit.joints) {
      expect(proof).toMatchObject({
        sideClearance: { min: near(0.1), max: near(0.1) },
        endGap: near(0.4),
        shoulderGap: near(0),
        interference: 0,
      });
    }
  });

  test("is built on its base: rails, then cheeks", () => {
    expect(fitOf().order).toEqual(["base", "rail-front", "rail-back", "cheek-left", "cheek-right"]);
  });

  test("is as large as its inside and two sheets, square, and stands on its feet", () => {
    const { measures } = fitOf();
    const { outside, diagonals, footing } = measures!;
    // 540 + 2 × 14.8 and 336 + 2 × 14.8: design.md, worked numbers.
    expect(outside.max.x - outside.min.x).toBeCloseTo(569.6, 3);
    expect(outside.max.y - outside.min.y).toBeCloseTo(365.6, 3);
    expect(diagonals).toEqual([near(Math.hypot(569.6, 365.6), 3), near(Math.hypot(569.6, 365.6), 3)]);
    expect(footing).toMatchObject({ rocking: near(0, 3), below: near(0, 3) });
    expect(footing!.tipMargin).toBeGreaterThan(100);
  });

  test("weighs what its wood weighs", () => {
    const numbers = handMade();
    const { width: W, depth: D, front, thickness: t, tongue } = numbers;
    const { thickness: k, length: l } = tongue;
    // The front rail, derived: body less the groove's mouth, and two tongues of 24 × 7 (front 46: 8 to 32).
    const rail = W * (front + t) * t - W * (k + 0.2) * 7.2 + 2 * l * k * (front - 14 - 8);
    const only = { ...assemblyOf(numbers), joints: [] };
    const alone = { ...only, parts: only.parts.filter((part) => part.id === "rail-front") };
    const cuts = cutPartsOf(numbers).filter((cut) => cut.part === "rail-front");
    const fit = dryFit(
      kernel,
      alone,
      () => cuts,
      () => 680,
    );
    expect(fit.measures!.weightKg).toBeCloseTo((rail * 680) / 1e9, 6);
    expect(D).toBe(336);
  });
});

describe("a case cut wrongly", () => {
  test("a housing 0.3 too shallow eats into the air under the tongue, and the shoulder still closes", () =>
    check({ housingDepth: 6.9 }, [], "base-left", { endGap: near(0.1), shoulderGap: near(0) }));

  test("a housing 0.7 too shallow holds the shoulder 0.3 open", () =>
    check({ housingDepth: 6.5 }, ["tongue_bottoms_out", "interference"], "base-left", {
      endGap: near(-0.3),
      shoulderGap: near(0.3),
    }));

  test("a groove 0.7 too shallow holds the rails off the base", () =>
    check({ grooveDepth: 6.5 }, ["tongue_bottoms_out", "interference"], "base-front", {
      endGap: near(-0.3),
      shoulderGap: near(0.3),
      // 0.3 of the 540 long, 7 thick tongue's end.
      interference: near(0.3 * 7 * 540, 0),
    }));

  test("a shoulder cut 0.3 too far leaves a gap of 0.3 in front, none at the back", () => {
    check({ baseShoulderCut: 0.3 }, ["shoulder_open"], "base-front", { shoulderGap: near(0.3) });
    check({ baseShoulderCut: 0.3 }, ["shoulder_open"], "base-back", { shoulderGap: near(0) });
  });

  test("housings 0.05 narrower on each side are too tight", () =>
    check({ cutSide: 0.05 }, ["too_tight"], "rail-back-left", {
      sideClearance: { min: near(0.05), max: near(0.05) },
    }));

  test("housings narrower than their tongues have wood in wood", () =>
    check({ cutSide: -0.05 }, ["too_tight", "interference"], "base-right", {
      sideClearance: { min: near(-0.05), max: near(-0.05) },
    }));

  test("housings 0.2 wider on each side are too loose", () =>
    check({ cutSide: 0.3 }, ["too_loose"], "base-right", {
      sideClearance: { min: near(0.3), max: near(0.3) },
    }));

  test("a tongue that is 0.05 thin from below is loose below only, and says so", () =>
    check({ baseTongueThickness: 6.95 }, ["too_loose"], "base-right", {
      sideClearance: { min: near(0.1), max: near(0.15) },
    }));

  test("a tongue that comes within 1 mm of its housing's end hits the round end", () =>
    check({ endAir: 1 }, ["tongue_end_hits_round_end", "interference"], "base-left", {
      sideClearance: { min: near(0.1), max: near(0.1) },
    }));

  test("one foot 1 mm short rocks", () => {
    const fit = fitOf({ leftBackDrop: 33 });
    expect(fit.findings).toMatchObject([{ code: "feet_not_on_one_plane" }]);
    // Seen square to the table, 1 mm of height is 1 mm × cos(rake): derived.
    expect(fit.findings[0]!.numbers.rocking).toBeCloseTo(Math.cos(Math.atan(26 / 365.6)), 3);
  });

  test("a part that was never cut is missed, and its joints are apart", () => {
    const numbers = handMade();
    const cuts = cutPartsOf(numbers).map((cut) =>
      cut.part === "cheek-left"
        ? { ...cut, layers: cut.layers.map((layer) => ({ ...layer, solid: [] })) }
        : cut,
    );
    const fit = dryFit(kernel, assemblyOf(numbers), () => cuts);
    expect(fit.findings.map((finding) => [finding.code, finding.path])).toEqual([
      ["parts_apart", "base-left"],
      ["parts_apart", "rail-front-left"],
      ["parts_apart", "rail-back-left"],
      ["part_missing", "cheek-left"],
      ["feet_not_on_one_plane", "feet"],
    ]);
  });

  test("a base with no tongue towards a cheek is apart from it", () => {
    const numbers = handMade();
    const assembly = assemblyOf(numbers);
    const raised = assembly.poses["cheek-left"]!;
    const poses = {
      ...assembly.poses,
      "cheek-left": { ...raised, origin: { ...raised.origin, x: -numbers.tongue.length - 1 } },
    };
    const fit = dryFit(kernel, { ...assembly, poses }, () => cutPartsOf(numbers));
    expect(fit.findings.map((finding) => finding.code)).toContain("parts_apart");
  });
});

describe("readings of an uneven sheet", () => {
  test("every joint is tried at the least, the mean and the most", () => {
    const numbers = handMade();
    const assembly = assemblyOf(numbers);
    const uneven = assembly.parts.map((part) => ({ ...part, thickness: { min: 14.6, mean: 14.8, max: 15 } }));
    const asked: string[] = [];
    const fit = dryFit(kernel, { ...assembly, parts: uneven }, (reading) => {
      asked.push(reading);
      const side = { min: 0.12, mean: 0.1, max: 0.09 }[reading];
      return cutPartsOf(handMade({ cutSide: side, side: 0.1 }));
    });
    expect(asked).toEqual(["min", "mean", "max"]);
    expect(joint(fit, "base-left").sideClearance).toEqual({ min: near(0.09), max: near(0.12) });
    expect(fit.findings).toEqual([]);
  });
});

test("whatever air was asked for is the air that is measured", () => {
  const fits = fc.record({
    side: fc.double({ min: 0.02, max: 0.4, noNaN: true }),
    end: fc.double({ min: 0.1, max: 1, noNaN: true }),
    thickness: fc.double({ min: 12, max: 19, noNaN: true }),
    tongue: fc.record({
      thickness: fc.double({ min: 5, max: 7, noNaN: true }),
      length: fc.double({ min: 4, max: 7, noNaN: true }),
    }),
    cutterRadius: fc.constantFrom(1.5, 2, 2.5),
  });
  fc.assert(
    fc.property(fits, (asked) => {
      const fit = fitOf(asked);
      expect(fit.findings).toEqual([]);
      for (const proof of fit.joints) {
        expect(proof.sideClearance.min).toBeCloseTo(asked.side, 3);
        expect(proof.sideClearance.max).toBeCloseTo(asked.side, 3);
        expect(proof.endGap).toBeCloseTo(asked.end, 3);
        expect(Math.abs(proof.shoulderGap)).toBeLessThan(CONTACT_MM / 10);
      }
    }),
    { numRuns: 12, seed: 1 },
  );
});
