import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { explain, explanationText } from "../src/index.ts";
import { likelyDesign } from "./arbitrary.ts";
import { sample } from "./designs.ts";

/** Works a written sum out: numbers, + − × /, brackets, squares, roots and atan, as a pupil would. */
function workedOut(text: string): number {
  const tokens = text.match(/\d+\.?\d*|atan|[()+−×/²√-]/g)!;
  let at = 0;
  const sum = (): number => {
    let value = product();
    while (tokens[at] === "+" || tokens[at] === "−") value += tokens[at++] === "+" ? product() : -product();
    return value;
  };
  const product = (): number => {
    let value = factor();
    while (tokens[at] === "×" || tokens[at] === "/")
      value = tokens[at++] === "×" ? value * factor() : value / factor();
    return value;
  };
  const factor = (): number => {
    const token = tokens[at++]!;
    let value: number;
    if (token === "(") {
      value = sum();
      at++;
    } else if (token === "√") value = Math.sqrt(factor());
    else if (token === "atan") value = (Math.atan(factor()) * 180) / Math.PI;
    else if (token === "-") value = -factor();
    else value = Number(token);
    if (tokens[at] === "²") {
      at++;
      value *= value;
    }
    return value;
  };
  return sum();
}

test("the sums are read rightly", () => {
  expect(workedOut("540 + 2 × 6.8")).toBeCloseTo(553.6, 9);
  expect(workedOut("3 − √(3² − (3 − 0.1)²)")).toBeCloseTo(2.2319, 4);
});

describe("what is explained", () => {
  const byId = new Map(explain(sample("tidepool")).map((e) => [e.id, explanationText(e)]));
  const check = (id: string, expected: string) => expect(byId.get(id)).toBe(expected);
  test("the base blank", () =>
    check("base.x", "Base blank across: inside.width + 2 × joint.tongue.length = 540 + 2 × 6.8 = 553.6 mm"));
  test("the groove", () =>
    check(
      "groove.bottom",
      "Groove's lower edge over the rail's bottom: thickness − joint.tongue.thickness − joint.clearance.side = 14.8 − 7 − 0.1 = 7.7 mm",
    ));
  test("the slot end", () =>
    check(
      "slot-end",
      "A tongue stays short of a round housing end by: cutter radius − √(cutter radius² − (cutter radius − joint.clearance.side)²) = 3 − √(3² − (3 − 0.1)²) = 2.2319 mm",
    ));
  test("the rake", () =>
    check(
      "rake",
      "Rake: atan((cheek.feet.back.drop − cheek.feet.front.drop) / outside depth) = atan((34 − 8) / 365.6) = 4.0678°",
    ));
  test("the tier", () =>
    check(
      "tier.depth",
      "Tier from front to back: tier.slats × tier.slat + (tier.slats − 1) × tier.gap = 3 × 52 + (3 − 1) × 28 = 212 mm",
    ));
});

test("every sum, worked out as it is written, gives its number", () => {
  fc.assert(
    fc.property(likelyDesign(), (design) => {
      for (const e of explain(design)) expect(workedOut(e.figures)).toBeCloseTo(e.value, 4);
    }),
    { numRuns: 100, seed: 7 },
  );
});

test("no two explanations share an id", () => {
  const ids = explain(sample("halyard")).map((e) => e.id);
  expect(new Set(ids).size).toBe(ids.length);
});
