import {
  areaOf,
  boundsOf,
  contains,
  cross,
  difference,
  directionAt,
  distanceTo,
  flatten,
  isSimple,
  type Loop,
  placeCurve,
  placement,
  point,
  segments,
  signedArea,
} from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Assembly, Box3 } from "../src/assembly.ts";
import type { Design } from "../src/design.ts";
import { boxInCase, caseFromPanel, designText, numbersOf, panelFromCase, recipe } from "../src/index.ts";
import type { Part, Recess } from "../src/part.ts";
import { arbitraryDesign } from "./arbitrary.ts";
import { plainCase, sample } from "./designs.ts";

/** Made once: every rule looks at the same random cases. */
const cases = fc.sample(arbitraryDesign(), { numRuns: 60, seed: 20_261 }).map((design) => ({
  design,
  assembly: recipe(design),
}));

/** One rule over all of them; a case that breaks it is shown as a design file. */
function always(name: string, holds: (assembly: Assembly, design: Design) => void): void {
  test(name, () => {
    for (const { assembly, design } of cases) {
      try {
        holds(assembly, design);
      } catch (error) {
        throw new Error(`${(error as Error).message}\n\n${designText(design)}`, { cause: error });
      }
    }
  });
}

const partOf = (assembly: Assembly, id: string): Part => assembly.parts.find((p) => p.id === id)!;

function loopsOf(part: Part): Loop<"panel">[] {
  return part.features.flatMap((f) =>
    f.kind === "opening" ? [f.loop] : f.kind === "recess" ? [f.region.outer] : [],
  );
}

describe("random cases", () => {
  always("outlines run counter-clockwise from the origin and meet themselves nowhere", ({ parts }) => {
    for (const { outline } of parts) {
      expect(signedArea(outline)).toBeGreaterThan(0);
      expect(isSimple(outline)).toBe(true);
      const { min } = boundsOf(outline);
      expect(Math.hypot(min.x, min.y)).toBeLessThan(1e-6);
    }
  });

  always("every feature lies inside its part", ({ parts }) => {
    for (const part of parts) {
      for (const loop of loopsOf(part)) {
        const outside = flatten(loop).filter(
          (p) => contains(part.outline, p) === "outside" && distanceTo(part.outline, p) > 1e-4,
        );
        expect(outside).toEqual([]);
        expect(
          areaOf(difference([{ outer: loop, holes: [] }], [{ outer: part.outline, holes: [] }])),
        ).toBeLessThan(0.01);
      }
    }
  });

  always("inside corners carry at least the cutter's radius", ({ parts }, design) => {
    const r = design.cutter / 2 - 1e-6;
    for (const part of parts) {
      const list = segments(part.outline);
      list.forEach((s, i) => {
        const next = list[(i + 1) % list.length]!;
        // A turn to the right by more than the arcs' fit is a sharp inside corner.
        expect(cross(directionAt(s, 1), directionAt(next, 0))).toBeGreaterThan(-0.02);
        if (s.kind === "arc" && s.sweep < 0) expect(s.radius).toBeGreaterThan(r);
      });
    }
  });

  always("cheeks are mirror images, but for their own openings and edges", (assembly) => {
    const [left, right] = [partOf(assembly, "cheek-left"), partOf(assembly, "cheek-right")];
    const mirror = placement<"panel", "panel">(point(boundsOf(left.outline).max.x, 0), { flip: true });
    const same = (a: Loop<"panel">, b: Loop<"panel">) => expect(placeCurve(mirror, a)).toEqual(b);
    same(left.outline, right.outline);
    const housings = (part: Part) =>
      part.features.filter((f): f is Recess => f.kind === "recess" && f.purpose === "housing");
    expect(housings(left).length).toBe(housings(right).length);
    for (const [i, h] of housings(left).entries()) same(h.region.outer, housings(right)[i]!.region.outer);
  });

  always("each cheek's housings are one recess, the stop inside the outline", (assembly, design) => {
    const cheek = partOf(assembly, "cheek-left");
    const housings = cheek.features.filter(
      (f): f is Recess => f.kind === "recess" && f.purpose === "housing",
    );
    expect(housings).toHaveLength(1);
    const least = Math.min(...flatten(housings[0]!.region.outer).map((p) => distanceTo(cheek.outline, p)));
    expect(least).toBeGreaterThan(design.joint.stop - 2e-3);
  });

  always("every tongue stands in its housing with the asked air", (assembly, design) => {
    for (const joint of assembly.joints) {
      const housing = partOf(assembly, joint.housing.part);
      const recess = housing.features.find((f) => f.id === joint.housing.feature) as Recess;
      const pose = assembly.poses[housing.id]!;
      // The tongue and its side air, shadowed onto the housing's face, lies in the recess.
      const { min, max } = joint.tongue.box;
      const { side, alongLeast } = joint.fit;
      // The air beside it all along, and the air at its ends along its middle line, where the end is furthest.
      const middle = (min[joint.across] + max[joint.across]) / 2;
      const asked = [min, max].flatMap((end, i) => [
        { [joint.across]: min[joint.across] - side + 1e-4, [joint.along]: end[joint.along] },
        { [joint.across]: max[joint.across] + side - 1e-4, [joint.along]: end[joint.along] },
        { [joint.across]: middle, [joint.along]: end[joint.along] + (i === 0 ? -alongLeast : alongLeast) },
      ]);
      for (const place of asked) {
        expect(contains(recess.region, panelFromCase(pose, { ...min, ...place }))).not.toBe("outside");
      }
      const reach = joint.into[1] as "x" | "y" | "z";
      expect(max[reach] - min[reach]).toBeCloseTo(design.joint.tongue.length, 9);
      expect(recess.depth).toBeCloseTo(design.joint.tongue.length + joint.fit.end, 9);
    }
  });

  always("poses put every part where it fills wood of its own thickness", ({ parts, poses }) => {
    for (const part of parts) {
      const pose = poses[part.id]!;
      const p = { x: 3, y: 5 };
      const [near, far] = [0, part.thickness.mean].map((d) => caseFromPanel(pose, p, d, part.thickness.mean));
      expect(panelFromCase(pose, near!)).toEqual({ x: expect.closeTo(3, 9), y: expect.closeTo(5, 9) });
      expect(Math.hypot(far!.x - near!.x, far!.y - near!.y, far!.z - near!.z)).toBeCloseTo(
        part.thickness.mean,
        9,
      );
      // The datum face stays where it is in a thinner sheet.
      const datum = (t: number) => caseFromPanel(pose, p, pose.datum === "A" ? 0 : t, t);
      expect(datum(part.thickness.min)).toEqual(datum(part.thickness.max));
    }
  });

  always("no two parts overlap, but for tongues in their housings", (assembly) => {
    const boxes = assembly.parts.map((part) => ({
      id: part.id,
      box: boxInCase(part, assembly.poses[part.id]!, boundsOf(part.outline).max),
    }));
    for (const [i, a] of boxes.entries()) {
      for (const b of boxes.slice(i + 1)) {
        const jointed = assembly.joints.some(
          (j) => [a.id, b.id].includes(j.tongue.part) && [a.id, b.id].includes(j.housing.part),
        );
        if (!jointed) expect([a.id, b.id, overlap(a.box, b.box) < 1e-6]).toEqual([a.id, b.id, true]);
      }
    }
  });

  always("mating stretches and rounded edges lie on the outline", ({ parts }) => {
    for (const part of parts) {
      for (const run of [...part.mating, ...part.roundOvers.map((r) => r.run)]) {
        expect(run.vertices.length).toBeGreaterThan(1);
        for (const p of flatten(run)) expect(distanceTo(part.outline, p)).toBeLessThan(2e-3);
      }
    }
  });

  always("what is over all is over all", (assembly) => {
    const boxes = assembly.parts.map((p) => boxInCase(p, assembly.poses[p.id]!, boundsOf(p.outline).max));
    const reach = (axis: "x" | "y") =>
      Math.max(...boxes.map((b) => b.max[axis])) - Math.min(...boxes.map((b) => b.min[axis]));
    expect(reach("x")).toBeCloseTo(assembly.outside.width, 4);
    expect(reach("y")).toBeCloseTo(assembly.outside.depth, 4);
  });

  always("parts bear names of their own, and the same design gives the same case", (assembly, design) => {
    expect(new Set(assembly.parts.map((p) => p.id)).size).toBe(assembly.parts.length);
    expect(JSON.stringify(recipe(design))).toBe(JSON.stringify(assembly));
  });
});

/** mm³ that two boxes share. */
function overlap(a: Box3, b: Box3): number {
  return (["x", "y", "z"] as const).reduce(
    (v, axis) =>
      v * Math.max(0, Math.min(a.max[axis], b.max[axis]) - Math.max(a.min[axis], b.min[axis]) - 1e-6),
    1,
  );
}

describe("rail styles", () => {
  const style = (changes: Readonly<Record<string, unknown>>) => numbersOf(plainCase(changes)).style;
  test("inner and full are taken as asked", () => {
    expect(style({ "joint.rails": "inner", "cheek.overhang": { front: 20, back: 20 } })).toBe("inner");
    expect(style({ "joint.rails": "full" })).toBe("full");
  });
  test("fewest flips takes full-thickness ends where the cheeks stand out far enough", () => {
    // Derived: stop 6 + thickest 14.9 − mean 14.8 + clearance 0.1 = 6.2.
    expect(style({ "joint.rails": "fewest-flips", "cheek.overhang": { front: 6.2, back: 6.2 } })).toBe(
      "full",
    );
    expect(style({ "joint.rails": "fewest-flips", "cheek.overhang": { front: 6.1, back: 20 } })).toBe(
      "inner",
    );
  });
  test("full-thickness rails are worked on one face, their housings sized on the thickest reading", () => {
    const design = plainCase({ "joint.rails": "full", "cheek.overhang": { front: 7, back: 7 } });
    const { parts, findings } = recipe(design);
    const faces = parts.flatMap((p) => p.features.flatMap((f) => (f.kind === "opening" ? [] : [f.face])));
    expect(new Set(faces)).toEqual(new Set(["A"]));
    const { frontHousing } = numbersOf(design);
    expect(frontHousing.max - frontHousing.min).toBeCloseTo(14.9 + 0.2, 9);
    expect(findings.find((f) => f.code === "rail_style")!.numbers.setups).toBe(1);
  });
  test("a thick sheet leaves a lower piece of tongue, where it is long enough to hold", () => {
    const thick = { "sheet.thickness": 30, "joint.tongue": { thickness: 9, length: 8 }, "joint.stop": 5 };
    const ids = (piece: number) =>
      recipe(plainCase({ ...thick, "joint.piece": piece })).joints.map((j) => j.id);
    expect(ids(4)).toContain("rail-front-left-lower");
    expect(ids(12)).not.toContain("rail-front-left-lower");
  });
});

describe("crest", () => {
  test("runs level over the rails, at their height", () => {
    const { parts, poses } = recipe(sample("tidepool"));
    const cheek = parts[0]!;
    const top = (y: number): number =>
      Math.max(
        ...flatten(cheek.outline, 0.0001)
          .map((p) => caseFromPanel(poses["cheek-left"]!, p, 0, 14.8))
          .filter((p) => Math.abs(p.y - y) < 1e-3)
          .map((p) => p.z),
      );
    expect(top(-14.8)).toBeCloseTo(46, 6);
    expect(top(336 + 14.8)).toBeCloseTo(122, 6);
  });
  for (const form of ["straight", "arc", "batten"]) {
    test(`a ${form} crest goes through its three places`, () => {
      const through = { at: 90, height: form === "straight" ? 50 + (30 * 90) / 200 : 72 };
      const { parts, poses } = recipe(plainCase({ cheek: { crest: { form, through } } }));
      const p = panelFromCase(poses["cheek-left"]!, { x: 0, y: through.at, z: through.height });
      expect(distanceTo(parts[0]!.outline, p)).toBeLessThan(0.004);
    });
  }
  test("may stand over the rails", () => {
    const { parts } = recipe(plainCase({ "cheek.crest": { above: 5 } }));
    expect(boundsOf(parts[0]!.outline).max.y).toBeCloseTo(80 + 5 + 14.8, 6);
  });
});
