import {
  type DxfOptions,
  type DxfReading,
  partDxf,
  partDxfR12,
  readDxf,
  regionsOnLayer,
  sheetDxf,
  sheetDxfR12,
} from "@dryfit/dxf";
import {
  areaOf,
  boundsOf,
  type Curve,
  distanceTo,
  flatten,
  type Region,
  ROUNDING_MM,
  rectangle,
} from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { anyPanel, bore, everything, panel, sheetOf } from "./parts.ts";

const layersIn = (text: string) => [...readDxf(text).layers].sort();

test("every kind of cut has its layer", () => {
  expect(layersIn(partDxf(everything, { runOut: 0 }))).toEqual([
    "BORE_3-20_8-00_A",
    "BORE_3-20_THROUGH",
    "LABEL",
    "RECESS_7-20_A",
    "RECESS_7-80_B",
    "THROUGH_INSIDE",
    "THROUGH_OUTSIDE",
  ]);
});

test("the sheet's edge and the labels can be left out", () => {
  const sheet = sheetOf([{ part: "test-panel", x: 0, y: 0 }]);
  const bare = layersIn(sheetDxf(sheet, [everything], { runOut: 0, sheetEdge: false, labels: false }));
  expect(bare.filter((layer) => layer === "LABEL" || layer === "SHEET_EDGE")).toEqual([]);
  expect(layersIn(sheetDxf(sheet, [everything], { runOut: 0 }))).toContain("SHEET_EDGE");
});

test("a service's own layer names take the place of ours", () =>
  expect(layersIn(partDxf(everything, { runOut: 0, layerNames: { THROUGH_OUTSIDE: "CUT-OUT" } }))).toContain(
    "CUT-OUT",
  ));

test("a layer name that a reader would refuse is refused", () => {
  for (const name of ["cut/out", "", "schnitt außen", "A".repeat(32)])
    expect(() => partDxf(everything, { runOut: 0, layerNames: { LABEL: name } })).toThrow(RangeError);
});

test("holes are circles and a quarter turn is a bulge of 0.414214", () => {
  const text = partDxf(everything, { runOut: 0 });
  expect(text.match(/^CIRCLE$/gm)).toHaveLength(2);
  // DXF Reference, LWPOLYLINE code 42: tan of a quarter of the included angle
  expect(text).toMatch(/^42\n0\.414213562$/m);
});

test("the header says release, millimetres and extents", () => {
  const text = partDxf(everything, { runOut: 0 });
  expect(text).toContain("$ACADVER\n1\nAC1015\n");
  expect(text).toContain("$INSUNITS\n70\n4\n");
  expect(text).toContain("$MEASUREMENT\n70\n1\n");
  expect(text).toContain("$EXTMIN\n10\n0\n20\n0\n30\n0\n");
  expect(text).toContain("$EXTMAX\n10\n400\n20\n200\n30\n0\n");
  expect(partDxfR12(everything, { runOut: 0 })).toMatch(/\$ACADVER\n +1\nAC1009\n/);
});

test("the file says that no kerf is applied, or what its maker says instead", () => {
  expect(partDxf(everything, { runOut: 0 })).toMatch(
    /^999\nUnits: millimetres\. Geometry is nominal, no kerf applied\.\n/,
  );
  expect(partDxfR12(everything, { runOut: 0, note: "kerf 0.2 mm applied – ok" })).toMatch(
    /^999\nkerf 0\.2 mm applied \? ok\n/,
  );
});

describe("both releases", () => {
  for (const [release, write] of [
    ["R2000", partDxf],
    ["R12", partDxfR12],
  ] as const) {
    test(`${release}: plain ASCII, one kind of line end, a newline last`, () => {
      const text = write(everything, { runOut: 0 });
      expect(text).toMatch(/^[\x20-\x7e\n]*\n$/);
      expect(text.endsWith("EOF\n")).toBe(true);
    });
    test(`${release}: the same part gives the same bytes, whatever was written before`, () => {
      const first = write(everything, { runOut: 0 });
      partDxf(panel("other", rectangle({ x: 0, y: 0 }, { x: 10, y: 10 })), { runOut: 0 });
      expect(write(everything, { runOut: 0 })).toBe(first);
    });
    test(`${release}: no number is written with an exponent`, () => {
      const tiny = panel("tiny", rectangle({ x: 0, y: 0 }, { x: 30, y: 20 }), [
        bore("b", 1e-7, 1e-9, 1, null),
      ]);
      expect(write(tiny, { runOut: 0 })).not.toMatch(/^-?[\d.]+e[-+]?\d+$/im);
    });
    test(`${release}: a length that is not finite is never written`, () => {
      const broken = panel("broken", rectangle({ x: 0, y: 0 }, { x: 30, y: 20 }), [
        bore("b", Number.NaN, 5, 1, null),
      ]);
      expect(() => write(broken, { runOut: 0, labels: false })).toThrow(RangeError);
    });
  }
});

test("a recess open at the edge is drawn run out by the cutter's radius", () => {
  const reading = readDxf(partDxf(everything, { runOut: 3 }));
  const { min, max } = boundsOf(loopsOn(reading, "RECESS_7-80_B"));
  expect([min.x, min.y, max.x, max.y]).toEqual([390, 27, 403, 173].map((v) => expect.closeTo(v, 3)));
});

test("a recess inside the panel is drawn as it is, whatever the cutter", () =>
  expect(regionsOnLayer(readDxf(partDxf(everything, { runOut: 3 })), "RECESS_7-20_A")).toEqual(
    regionsOnLayer(readDxf(partDxf(everything, { runOut: 0 })), "RECESS_7-20_A"),
  ));

test("a label crosses no line and stands on its part", () => {
  const reading = readDxf(partDxf(everything, { runOut: 0 }));
  const label = reading.texts[0]!;
  expect(label).toMatchObject({ layer: "LABEL", text: "test-panel: face A up (inside)" });
  const halfWidth = (label.text.length * label.height) / 2;
  for (const { loop } of reading.loops)
    for (const p of flatten(loop))
      expect(Math.abs(p.x - label.at.x) < halfWidth * 0.9 && Math.abs(p.y - label.at.y) < label.height).toBe(
        false,
      );
});

test("a turned part stands turned on its sheet, its label upright", () => {
  const sheet = sheetOf([{ part: "test-panel", x: 200, y: 0, quarters: 1 }]);
  const reading = readDxf(sheetDxf(sheet, [everything], { runOut: 0 }));
  const { min, max } = boundsOf(loopsOn(reading, "THROUGH_OUTSIDE"));
  expect([min.x, min.y, max.x, max.y]).toEqual([0, 0, 200, 400]);
  expect([0, 90]).toContain(reading.texts[0]!.rotationDeg);
});

/** Writes the part, reads it back, and holds every layer's areas against the part's own. */
function checkReadBack(part: Part, write: (part: Part, options: DxfOptions) => string) {
  const reading = readDxf(write(part, { runOut: 0 }));
  expect(reading.paths).toEqual([]);
  expect(reading.unread).toEqual([]);
  for (const [layer, regions] of regionsByLayer(part)) {
    const found = regionsOnLayer(reading, layer);
    expect(areaOf(found)).toBeCloseTo(areaOf(regions), 0);
    // derived: each end of an arc moves by at most √2 · ROUNDING_MM, and the arc between them by twice that
    expect(apart(curvesOf(found), curvesOf(regions))).toBeLessThan(2 * Math.SQRT2 * ROUNDING_MM);
  }
}

test("what is written is what is read: 60 random panels, both releases", () => {
  fc.assert(
    fc.property(anyPanel, (part) => {
      checkReadBack(part, partDxf);
      checkReadBack(part, partDxfR12);
    }),
    { numRuns: 60, seed: 7 },
  );
});

test("R12 and R2000 hold the same areas", () => {
  const sheet = sheetOf([
    { part: "test-panel", x: 13.7, y: 20.3 },
    { part: "second", x: 1100.1, y: 31.4, quarters: 1 },
  ]);
  const parts = [everything, { ...everything, id: "second" }];
  const newer = readDxf(sheetDxf(sheet, parts, { runOut: 3 }));
  const older = readDxf(sheetDxfR12(sheet, parts, { runOut: 3 }));
  expect([...older.layers].sort()).toEqual([...newer.layers].sort());
  for (const layer of newer.layers) {
    const [a, b] = [loopsOn(newer, layer), loopsOn(older, layer)];
    if (a.length > 0) expect(apart(a, b)).toBeLessThan(0.005);
  }
});

function loopsOn(reading: DxfReading, layer: string) {
  return reading.loops.filter((found) => found.layer === layer).map((found) => found.loop);
}

function regionsByLayer(part: Part): Map<string, Region[]> {
  const layers = new Map<string, Region[]>([["THROUGH_OUTSIDE", [{ outer: part.outline, holes: [] }]]]);
  for (const feature of part.features) {
    if (feature.kind === "recess")
      layers.set(`RECESS_${feature.depth.toFixed(2).replace(".", "-")}_${feature.face}`, [feature.region]);
    if (feature.kind === "opening") layers.set("THROUGH_INSIDE", [{ outer: feature.loop, holes: [] }]);
  }
  return layers;
}

function curvesOf(regions: readonly Region[]): readonly Curve[] {
  return regions.flatMap((region) => [region.outer, ...region.holes]);
}

/** The widest gap between two sets of curves, both ways, sampled along them (Hausdorff). */
function apart(a: readonly Curve[], b: readonly Curve[]): number {
  const oneWay = (from: readonly Curve[], to: readonly Curve[]) =>
    Math.max(
      ...from.flatMap((c) => flatten(c).map((p) => Math.min(...to.map((other) => distanceTo(other, p))))),
    );
  return Math.max(oneWay(a, b), oneWay(b, a));
}
