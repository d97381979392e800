import { boundsOf, lengthOf } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { edgeNames, recipe } from "../src/index.ts";
import type { RoundOver } from "../src/part.ts";
import { plainCase } from "./designs.ts";

/** What one rounded edge of the plain case (cheeks 229.6 long) becomes. */
function round(
  panel: string,
  edge: string,
  rest: object = {},
  changes: object = {},
): readonly RoundOver[] | string {
  const { parts, findings } = recipe(plainCase({ edges: [{ panel, edge, radius: 3, ...rest }], ...changes }));
  const refused = findings.find((f) => f.severity === "error");
  return refused ? refused.code : parts.find((p) => p.id === panel)!.roundOvers;
}

const tier = { tier: { slats: 2, slat: 50, height: 45 } };

describe("an edge that stands free is rounded on both faces", () => {
  const whole = (panel: string, edge: string, length: number, changes: object = {}) => {
    const found = round(panel, edge, {}, changes) as readonly RoundOver[];
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ radius: 3, faces: ["A", "B"] });
    expect(lengthOf(found[0]!.run)).toBeCloseTo(length, 6);
  };
  test("a rail's top, from cheek to cheek", () => whole("rail-back", "top", 300));
  test("a slat's front", () => whole("slat-1", "front", 298, tier));
  test("a slat's end", () => whole("slat-2", "left", 50, tier));
  test("an overhanging cheek's front", () =>
    whole("cheek-left", "front", 50 + 14.8, { cheek: { overhang: { front: 10, back: 0 } } }));
});

describe("an edge that closes a joint", () => {
  test("the crest is rounded inside between the rails only", () => {
    for (const panel of ["cheek-left", "cheek-right"]) {
      const [outside, inside] = round(panel, "crest") as readonly RoundOver[];
      expect(outside).toMatchObject({ faces: ["B"] });
      expect(inside).toMatchObject({ faces: ["A"] });
      const reach = (r: RoundOver) => boundsOf(r.run).max.x - boundsOf(r.run).min.x;
      expect(reach(outside!)).toBeCloseTo(229.6, 6);
      expect(reach(inside!)).toBeCloseTo(200, 1);
    }
  });
  test("a crest that stands over the rails is free all along", () => {
    expect(round("cheek-left", "crest", {}, { cheek: { crest: { above: 4 } } })).toHaveLength(1);
  });
  for (const edge of ["front", "back", "belly"]) {
    test(`a flush cheek's ${edge} stays sharp inside`, () => {
      expect(round("cheek-left", edge)).toBe("round_over_opens_joint");
      expect(round("cheek-right", edge, { faces: "B" })).toHaveLength(1);
    });
  }
  test("a rail's bottom stays sharp where the base ends", () => {
    expect(round("rail-front", "bottom")).toBe("round_over_opens_joint");
    expect(round("rail-front", "bottom", { faces: "B" })).toHaveLength(1);
  });
  test("a hinge keeps its seat", () => {
    expect(round("slat-2", "back", {}, tier)).toBe("round_over_opens_joint");
    expect(round("slat-2", "back", {}, { tier: { ...tier.tier, swing: 0 } })).toHaveLength(1);
  });
  test("the base has no free edge", () => expect(edgeNames("base")).toEqual([]));
});
