import { describe, expect, test } from "vitest";
import { cutList, hardware, recipe, weightOf } from "../src/index.ts";
import { sample } from "./designs.ts";

for (const name of ["tidepool", "skiff", "halyard", "lantern"] as const) {
  const design = sample(name);
  const assembly = recipe(design);
  describe(name, () => {
    test("has nothing to mend", () => {
      expect(assembly.findings.filter((f) => f.severity !== "note").map((f) => f.message)).toEqual([]);
    });
    test("cuts every part once", () => {
      expect(cutList(assembly).flatMap((line) => line.parts)).toEqual(assembly.parts.map((p) => p.id));
    });
    test("can be carried", () => {
      const kg = weightOf(assembly.parts, design.sheet.density);
      expect(kg).toBeGreaterThan(0.4);
      expect(kg).toBeLessThan(6);
    });
  });
}

describe("the cut list", () => {
  const lines = cutList(recipe(sample("tidepool")));
  const line = (id: string) => lines.find((l) => l.parts.includes(id))!;
  test("puts parts of one size on one line", () => {
    expect(line("slat-2")).toMatchObject({ title: "Slat × 3", parts: ["slat-1", "slat-2", "slat-3"] });
    expect(line("slat-2").size).toEqual([538, 52]);
  });
  test("keeps cheeks that differ apart", () => expect(line("cheek-left").parts).toEqual(["cheek-left"]));
  test("says which parts are worked on both faces", () => {
    expect(line("rail-front").faces).toEqual(["A", "B"]);
    expect(line("base").faces).toEqual(["A"]);
  });
});

describe("weight", () => {
  test("is area by thickness by density, less what is cut away", () => {
    // Derived: 540 × 336 full, and its four tongues, 7 thick, without their corners.
    const base = recipe(sample("tidepool")).parts.find((p) => p.id === "base")!;
    const fillets = 4 * (1 - Math.PI / 4) * 9;
    const mm3 = 540 * 336 * 14.8 + (2 * 540 * 6.8 + 2 * 336 * 6.8 + fillets) * 7;
    expect(weightOf([base], 680)).toBeCloseTo((mm3 / 1e9) * 680, 6);
  });
});

describe("hardware", () => {
  const names = (name: "tidepool" | "skiff") => hardware(sample(name)).map((h) => `${h.count} ${h.what}`);
  test("a tier that swings wants a hinge and a catch", () => {
    expect(names("tidepool")).toEqual(
      expect.arrayContaining([
        "1 Continuous hinge",
        "1 Ball or magnet catch",
        "6 Screw 3 mm × 35 mm",
        "1 Round audio connector",
      ]),
    );
  });
  test("a flat case stands on rubber feet, a fixed tier needs no hinge", () => {
    expect(names("skiff")).toContain("4 Rubber foot");
    expect(names("skiff").join()).not.toContain("hinge");
  });
  test("no screw comes out of the panel behind", () => {
    const flat = hardware(sample("skiff")).find((h) => h.note.startsWith("cleats"))!;
    expect(flat.what).toBe("Screw 3 mm × 16 mm");
  });
});
