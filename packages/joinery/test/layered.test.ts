import { boundsOf } from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { asLayered, type Design, designText, hardware, numbersOf, readDesign, recipe } from "../src/index.ts";
import { arbitraryDesign } from "./arbitrary.ts";
import { plainCase, plainText, sample } from "./designs.ts";

const lantern = sample("lantern");
const made = recipe(lantern);
const part = (id: string) => made.parts.find((p) => p.id === id)!;

function layered(changes: Readonly<Record<string, unknown>> = {}): Design {
  return plainCase({ construction: "layered", joint: {}, cutter: 3, ...changes });
}

function errors(design: Design): readonly string[] {
  return recipe(design).findings.flatMap((f) => (f.severity === "error" ? [f.code] : []));
}

/** Through cuts only: no pocket, no blind hole. */
function isThrough(design: Design): boolean {
  return recipe(design).parts.every(({ features }) =>
    features.every((f) => f.kind === "opening" || (f.kind === "bore" && f.depth === null)),
  );
}

describe("a case of through cuts", () => {
  test("has cheeks of layers, and every cut goes through", () => {
    expect(made.parts.map(({ id }) => id)).toEqual([
      "cheek-left-inner",
      "cheek-left-outer",
      "cheek-right-inner",
      "cheek-right-outer",
      "base",
      "rail-front",
      "rail-back",
    ]);
    expect(isThrough(lantern)).toBe(true);
    expect(made.glued).toEqual([
      ["cheek-left-inner", "cheek-left-outer"],
      ["cheek-right-inner", "cheek-right-outer"],
    ]);
  });

  test("has slots as wide as the thickest reading and the air beside it", () => {
    // Derived: 5.95 + 2 × 0.05.
    for (const f of [...part("cheek-left-inner").features, ...part("rail-front").features]) {
      if (!f.id.startsWith("slot")) continue;
      const { min, max } = boundsOf(f.kind === "opening" ? f.loop : []);
      expect(Math.min(max.x - min.x, max.y - min.y)).toBeCloseTo(6.05, 9);
    }
  });

  test("has a plain outer layer: pins, and the hole of a connector whose pocket is in the inner one", () => {
    const names = (id: string) => part(id).features.map((f) => f.id);
    expect(names("cheek-left-outer")).toEqual(["pin-1", "pin-2", "pin-3"]);
    expect(names("cheek-right-outer")).toEqual(["out", "pin-1", "pin-2", "pin-3"]);
    expect(names("cheek-right-inner")).toContain("out-pocket");
    expect(names("cheek-right-inner")).not.toContain("out");
  });

  test("has its pins at one place in all layers of a cheek, clear of every slot", () => {
    for (const cheek of ["cheek-left", "cheek-right"]) {
      const pins = (layer: string) => part(`${cheek}-${layer}`).features.filter((f) => f.kind === "bore");
      expect(pins("inner")).toEqual(pins("outer").filter((f) => f.id.startsWith("pin")));
    }
    expect(hardware(lantern).map(({ what, count }) => `${count} ${what}`)).toContain("6 Dowel 4 mm × 12 mm");
  });

  test("has the worked numbers of its file", () => {
    // Derived: 260 + 2 × 5.6; 150 + 2 × 5.6; 40 + 5.95 + 0.05 + 5; 260 + 4 × 5.92.
    const base = boundsOf(part("base").outline).max;
    expect(base.x).toBeCloseTo(271.2, 9);
    expect(base.y).toBeCloseTo(161.2, 9);
    expect(boundsOf(part("rail-front").outline).max.y).toBeCloseTo(51, 9);
    expect(numbersOf(lantern).outside.width).toBeCloseTo(283.68, 9);
  });

  test("may have cheeks of three layers, and longer tongues", () => {
    const three = layered({ layers: { count: 3 }, "sheet.thickness": [6, 6.1] });
    expect(errors(three)).toEqual([]);
    const { parts, poses, joints } = recipe(three);
    expect(parts.map(({ id }) => id).slice(0, 3)).toEqual([
      "cheek-left-inner-1",
      "cheek-left-inner-2",
      "cheek-left-outer",
    ]);
    expect(poses["cheek-left-outer"]).toMatchObject({ stacked: 2 });
    // Derived: 2 × 6 − 0.4.
    expect(three.joint.tongue.length).toBeCloseTo(11.6, 9);
    expect(joints[0]!.housing.behind).toEqual(["cheek-left-inner-2", "cheek-left-outer"]);
  });

  test("reads the same from the text that leaves nothing out", () => {
    const again = readDesign(designText(lantern), "again.yaml");
    expect(again.ok && again.value).toEqual({ ...lantern });
  });

  test("keeps its layers' keys for itself", () => {
    const read = readDesign(plainText({ layers: { count: 2 } }), "case.yaml");
    expect(!read.ok && read.problems[0]!.message).toMatch(/layers: found .*construction: layered/);
  });
});

test("any sound case can be had from through cuts, or is told what stands against it", () => {
  let could = 0;
  fc.assert(
    fc.property(arbitraryDesign(), (design) => {
      const { design: changed } = asLayered(design);
      const found = errors(changed);
      if (found.length > 0) return;
      could++;
      expect(isThrough(changed)).toBe(true);
      const text = readDesign(designText(changed), "changed.yaml");
      expect(text.ok && text.value.layers).toEqual(changed.layers);
    }),
    { numRuns: 12, seed: 5 },
  );
  expect(could).toBeGreaterThan(3);
});
