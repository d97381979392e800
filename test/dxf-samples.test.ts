import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { judgeDxf, partDxf, partDxfR12, readDxf, sheetDxf, sheetDxfR12 } from "@dryfit/dxf";
import { areaOf, boundsOf, type Curve, distanceTo, flatten, placeCurve } from "@dryfit/geometry";
import { type Part, readDesign, recipe } from "@dryfit/joinery";
import { nest } from "@dryfit/nest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { audit, type Verdict } from "./dxf-audit.ts";

const names = ["tidepool", "skiff", "halyard", "lantern"] as const;
const jobs = Object.fromEntries(names.map((name) => [name, jobOf(name)]));

let folder = "";
const verdicts: Record<string, Readonly<Record<string, Verdict>>> = {};

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "dryfit-dxf-"));
  for (const name of names) verdicts[name] = audit(folder, jobs[name]!.files);
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A sample's parts, sheets and all of its DXF texts. */
function jobOf(name: string) {
  const path = new URL(`../samples/${name}.yaml`, import.meta.url);
  const read = readDesign(readFileSync(path, "utf8"), `${name}.yaml`);
  if (!read.ok) throw new Error(read.problems.map((problem) => problem.message).join("\n"));
  const design = read.value;
  const { parts } = recipe(design);
  const { sheets } = nest({
    parts,
    stocks: design.sheet.sizes.map(({ id, size, grain, count, price }) => ({
      id,
      material: design.sheet.name,
      size,
      outline: null,
      grain,
      count,
      price,
      keepOuts: [],
    })),
    rules: { spacing: design.cutter + design.sheet.web, margin: design.sheet.margin },
    seed: 1,
  });
  const options = { runOut: design.cutter / 2 };
  const files: Record<string, string> = {};
  for (const sheet of sheets) {
    files[`${sheet.id}.dxf`] = sheetDxf(sheet, parts, options);
    files[`${sheet.id}-r12.dxf`] = sheetDxfR12(sheet, parts, options);
  }
  for (const part of parts) {
    files[`${part.id}.dxf`] = partDxf(part, options);
    files[`${part.id}-r12.dxf`] = partDxfR12(part, options);
    // Without any run-out, so that recesses measure what they measure in the panel.
    files[`${part.id}-exact.dxf`] = partDxf(part, { runOut: 0 });
    files[`${part.id}-exact-r12.dxf`] = partDxfR12(part, { runOut: 0 });
  }
  return { parts, sheets, files };
}

describe.each(names)("%s", (name) => {
  const { parts, sheets, files } = jobs[name]!;

  test("every file passes the outside auditor with nothing to correct", () => {
    for (const [file, verdict] of Object.entries(verdicts[name]!))
      expect({ ...verdict, file }).toMatchObject({
        file,
        errors: 0,
        fixes: 0,
        messages: [],
        undefinedLayers: [],
      });
  });

  test("every cut layer holds closed contours alone, none of them twice", () => {
    for (const { layers } of Object.values(verdicts[name]!)) {
      for (const [layer, { open, types, contours }] of Object.entries(layers)) {
        expect(open).toBe(0);
        if (layer !== "LABEL") expect(types).not.toHaveProperty("TEXT");
        const seen = contours.map(({ area, box }) => [area, ...box].map((v) => v.toFixed(2)).join(" "));
        expect(new Set(seen).size).toBe(seen.length);
      }
    }
  });

  test("a service would refuse none of them", () => {
    for (const [file, text] of Object.entries(files).filter(([found]) => !found.includes("-exact")))
      expect(judgeDxf(text, { file }).filter(({ severity }) => severity === "error")).toEqual([]);
  });

  test("every sheet holds its parts' outlines, where they were laid", () => {
    for (const sheet of sheets) {
      const reading = readDxf(files[`${sheet.id}.dxf`]!);
      const outlines = reading.loops.filter(({ layer }) => layer === "THROUGH_OUTSIDE");
      expect(outlines).toHaveLength(sheet.parts.length);
      sheet.parts.forEach(({ part, placement }, i) => {
        const laid = placeCurve(placement, partNamed(parts, part).outline);
        expect(apart([outlines[i]!.loop], [laid])).toBeLessThan(0.002);
      });
      expect(reading.texts).toHaveLength(sheet.parts.length);
    }
  });

  test("R12 and R2000 hold the same areas within 0.005 mm", () => {
    for (const [file, text] of Object.entries(files)) {
      if (file.endsWith("-r12.dxf")) continue;
      const [newer, older] = [readDxf(text), readDxf(files[file.replace(".dxf", "-r12.dxf")]!)];
      expect([...older.layers].sort()).toEqual([...newer.layers].sort());
      for (const layer of newer.layers.filter((found) => found !== "LABEL")) {
        const of = (reading: typeof newer) =>
          reading.loops.filter((found) => found.layer === layer).map(({ loop }) => loop);
        expect(apart(of(newer), of(older))).toBeLessThan(0.005);
      }
    }
  });

  test("a panel's own file holds the whole of its outline, and wood enough for every recess", () => {
    for (const part of parts) {
      const found = verdicts[name]![`${part.id}.dxf`]!.layers.THROUGH_OUTSIDE!.contours;
      expect(found).toHaveLength(1);
      expect(found[0]!.area).toBeCloseTo(areaOf([{ outer: part.outline, holes: [] }]), 0);
    }
  });
});

describe("tidepool measured from its written files by the outside reader", () => {
  /** Worked numbers of the case: width and height over all. */
  test.each([
    ["base", 553.6, 349.6],
    ["rail-front", 553.6, 60.8],
    ["rail-back", 553.6, 136.8],
    ["cheek-left", 365.6, null],
    ["cheek-right", 365.6, null],
  ])("%s is %f wide", (part, width, height) => {
    const [x0, y0, x1, y1] = contoursOn(part, "THROUGH_OUTSIDE")[0]!.box as [number, number, number, number];
    expect(x1 - x0).toBeCloseTo(width, 3);
    if (height !== null) expect(y1 - y0).toBeCloseTo(height, 3);
  });

  test("a tier of three slats and two gaps is 212 deep: its bearers are", () => {
    const [x0, , x1] = contoursOn("bearer-1", "THROUGH_OUTSIDE")[0]!.box as [number, number, number, number];
    expect(x1 - x0).toBeCloseTo(212, 3);
  });

  test("the rails' grooves run from 7.7 to 14.9 above the bottom edge, 7.2 deep", () => {
    for (const part of ["rail-front", "rail-back"]) {
      const groove = contoursOn(`${part}-exact`, "RECESS_7-20_A")[0]!.box;
      expect([groove[1], groove[3]]).toEqual([expect.closeTo(7.7, 3), expect.closeTo(14.9, 3)]);
    }
  });

  test("the rebates are 7.8 deep", () => {
    expect(Object.keys(layersOf("base")).some((layer) => layer.startsWith("RECESS_7-80_"))).toBe(true);
    expect(Object.keys(layersOf("rail-back")).some((layer) => layer.startsWith("RECESS_7-80_"))).toBe(true);
  });

  test("left and right cheek are mirror images", () => {
    const [left, right] = ["cheek-left", "cheek-right"].map(
      (part) => readDxf(jobs.tidepool!.files[`${part}.dxf`]!).loops[0]!.loop,
    );
    const { max } = boundsOf(left!);
    const mirrored = {
      closed: true as const,
      vertices: left!.vertices.map((v) => ({ x: max.x - v.x, y: v.y, bulge: -v.bulge })),
    };
    expect(apart([mirrored], [right!])).toBeLessThan(0.003);
  });
});

function layersOf(part: string) {
  return verdicts.tidepool![`${part}.dxf`]!.layers;
}

function contoursOn(part: string, layer: string) {
  return layersOf(part)[layer]!.contours;
}

function partNamed(parts: readonly Part[], id: string): Part {
  return parts.find((part) => part.id === id)!;
}

/** The widest gap between two sets of curves, both ways, sampled along them (Hausdorff). */
function apart(a: readonly Curve[], b: readonly Curve[]): number {
  const oneWay = (from: readonly Curve[], to: readonly Curve[]) =>
    Math.max(
      ...from.flatMap((c) =>
        flatten(c, 0.05).map((p) => Math.min(...to.map((other) => distanceTo(other, p)))),
      ),
    );
  return Math.max(oneWay(a, b), oneWay(b, a));
}
