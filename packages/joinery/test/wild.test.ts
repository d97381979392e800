import { isSimple } from "@dryfit/geometry";
import fc from "fast-check";
import { expect, test } from "vitest";
import { edgeNames, presetNames, presets, readDesign, recipe } from "../src/index.ts";
import { plainText } from "./designs.ts";

/** Anything that the schema lets through, in no proportion to anything else. */
const wild = fc.record(
  {
    inside: fc.record({ width: any(1, 3000), depth: any(1, 3000), front: any(1, 400), back: any(1, 400) }),
    sheet: fc.record({
      thickness: fc.oneof(any(3, 40), fc.array(any(3, 40), { minLength: 1, maxLength: 4 })),
      sizes: fc.array(fc.tuple(any(50, 3000), any(50, 3000)), { minLength: 1, maxLength: 2 }),
    }),
    joint: fc.record(
      {
        rails: fc.constantFrom("inner", "full", "fewest-flips"),
        tongue: fc.record({ thickness: any(1, 30), length: any(1, 30) }, { requiredKeys: [] }),
        clearance: fc.record({ side: any(0, 2), end: any(0, 5) }, { requiredKeys: [] }),
        stop: any(1, 50),
        piece: any(1, 100),
      },
      { requiredKeys: [] },
    ),
    cutter: any(0.5, 25),
    cheek: fc.record(
      {
        crest: fc.record({
          form: fc.constantFrom("straight", "arc", "batten"),
          through: fc.record({ at: any(1, 600), height: any(1, 600) }),
          above: fc.oneof(fc.constant(0), any(-20, 60)),
        }),
        feet: fc.record({ front: foot(), back: foot() }, { requiredKeys: [] }),
        overhang: fc.record({ front: any(0, 60), back: any(0, 60) }, { requiredKeys: [] }),
      },
      { requiredKeys: [] },
    ),
    tier: fc.record(
      {
        slats: fc.integer({ min: 1, max: 8 }),
        slat: any(15, 200),
        gap: any(0, 60),
        height: any(10, 200),
        clearance: any(0, 10),
        swing: fc.integer({ min: 0, max: 180 }),
        pin: any(0.5, 20),
        bearers: fc.record({ count: fc.integer({ min: 0, max: 6 }), inset: any(5, 400), air: any(0, 10) }),
        cleat: fc.record({ height: any(8, 100) }),
      },
      { requiredKeys: ["slats", "slat"] },
    ),
    openings: fc.array(opening(), { maxLength: 3 }),
    edges: fc.array(
      fc.constantFrom("cheek-left", "cheek-right", "base", "rail-front", "slat-1", "nothing").chain((panel) =>
        fc.record({
          panel: fc.constant(panel),
          edge: fc.constantFrom(...edgeNames(panel), "nowhere"),
          radius: any(0.5, 20),
        }),
      ),
      { maxLength: 3 },
    ),
  },
  { requiredKeys: ["inside", "sheet", "joint", "cutter", "cheek", "tier", "openings", "edges"] },
);

type Wild = Readonly<Record<string, unknown>>;

/** A sound case with a few of its groups gone wild: the fewer, the further it gets before something is found. */
const wildFile = fc
  .tuple(
    wild,
    fc.subarray(["inside", "sheet", "joint", "cutter", "cheek", "tier", "openings", "edges"], {
      minLength: 1,
      maxLength: 3,
    }),
  )
  .map(([groups, keys]) => plainText(Object.fromEntries(keys.map((key) => [key, (groups as Wild)[key]]))));

function any(least: number, most: number): fc.Arbitrary<number> {
  return fc.integer({ min: Math.round(10 * least), max: Math.round(10 * most) }).map((n) => n / 10);
}

function foot() {
  return fc.record(
    { drop: any(0, 100), length: any(5, 300), angle: fc.integer({ min: 20, max: 90 }), radius: any(0, 60) },
    { requiredKeys: [] },
  );
}

function opening() {
  return fc.constantFrom(...presetNames).chain((shape) =>
    fc.record({
      panel: fc.constantFrom(
        "cheek-left",
        "cheek-right",
        "base",
        "rail-front",
        "rail-back",
        "slat-1",
        "cleat-left",
      ),
      shape: fc.constant(shape),
      size: fc.record(
        Object.fromEntries(
          Object.entries(presets[shape].size).map(([key]) => [
            key,
            key === "count" ? fc.integer({ min: 1, max: 9 }) : any(0, 80),
          ]),
        ),
      ),
      from: fc.record(
        {
          left: any(0, 300),
          right: any(0, 300),
          front: any(0, 300),
          back: any(0, 300),
          floor: any(0, 100),
          top: any(0, 100),
        },
        { requiredKeys: [] },
      ),
    }),
  );
}

test("whatever can be read becomes a case or findings that say why not, and never a crash", () => {
  fc.assert(
    fc.property(wildFile, (file) => {
      const read = readDesign(file, "wild.yaml");
      if (!read.ok) throw new Error(read.problems.map((p) => p.message).join("\n"));
      const { parts, findings } = recipe(read.value);
      if (findings.some((f) => f.severity === "error")) return;
      expect(parts.length).toBeGreaterThan(4);
      for (const part of parts) expect(isSimple(part.outline)).toBe(true);
    }),
    { numRuns: 150, seed: 11 },
  );
});
