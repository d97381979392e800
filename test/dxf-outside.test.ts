import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { partDxf, partDxfR12, readDxf, regionsOnLayer, sheetDxf, sheetDxfR12 } from "@dryfit/dxf";
import { areaOf, boundsOf } from "@dryfit/geometry";
import dxfParser from "dxf-parser";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { everything, sheetOf } from "../packages/dxf/test/parts.ts";
import { audit, type Verdict } from "./dxf-audit.ts";

// The module is the class itself, whatever its types say.
const Parser = dxfParser as unknown as typeof dxfParser.DxfParser;

const sheet = sheetOf([
  { part: "test-panel", x: 10, y: 10 },
  { part: "second", x: 800, y: 10, quarters: 1 },
]);
const parts = [everything, { ...everything, id: "second" }];
const options = { runOut: 3 };
const files: Readonly<Record<string, string>> = {
  "sheet-1.dxf": sheetDxf(sheet, parts, options),
  "sheet-1-r12.dxf": sheetDxfR12(sheet, parts, options),
  "test-panel.dxf": partDxf(everything, options),
  "test-panel-r12.dxf": partDxfR12(everything, options),
};

let folder = "";
let verdicts: Readonly<Record<string, Verdict>> = {};

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "dryfit-dxf-"));
  verdicts = audit(folder, files);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(Object.keys(files))("%s, before the outside auditor", (name) => {
  test("has nothing to correct and nothing to mend", () =>
    expect(verdicts[name]).toMatchObject({ errors: 0, fixes: 0, messages: [], undefinedLayers: [] }));

  test("states its release and, where the release can, millimetres", () =>
    expect(verdicts[name]).toMatchObject(
      name.includes("r12") ? { release: "AC1009", units: null } : { release: "AC1015", units: 4 },
    ));

  test("holds closed contours alone on the layers that are cut", () => {
    for (const [layer, found] of Object.entries(verdicts[name]!.layers)) {
      expect(found.open).toBe(0);
      const allowed = layer === "LABEL" ? ["TEXT"] : ["LWPOLYLINE", "POLYLINE", "CIRCLE"];
      expect(allowed).toEqual(expect.arrayContaining(Object.keys(found.types)));
    }
  });

  test("holds no contour twice", () => {
    for (const { contours } of Object.values(verdicts[name]!.layers)) {
      const seen = contours.map(({ area, box }) => [area, ...box].map((v) => v.toFixed(2)).join(" "));
      expect(new Set(seen).size).toBe(seen.length);
    }
  });

  test("is read by us as the auditor reads it", () => {
    const ours = readDxf(files[name]!);
    for (const [layer, { contours }] of Object.entries(verdicts[name]!.layers)) {
      const mine = ours.loops.filter((found) => found.layer === layer);
      expect(mine).toHaveLength(contours.length);
      mine.forEach(({ loop }, i) => {
        const { min, max } = boundsOf(loop);
        const { area, box } = contours[i]!;
        expect(areaOf([{ outer: loop, holes: [] }])).toBeCloseTo(area, 3);
        [min.x, min.y, max.x, max.y].forEach((v, k) => {
          expect(Math.abs(v - box[k]!)).toBeLessThan(0.005);
        });
      });
    }
  });

  test("is read by another parser with the same vertices", () => {
    const ours = readDxf(files[name]!);
    const theirs = new Parser().parseSync(files[name]!)!.entities;
    const outlines = theirs.filter((entity) => /POLYLINE$/.test(entity.type)) as unknown as readonly {
      readonly layer: string;
      readonly shape: boolean;
      readonly vertices: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[];
    }[];
    expect(outlines.length).toBeGreaterThan(0);
    const mine = ours.loops.filter((found) =>
      outlines.some((o) => o.layer === found.layer && o.vertices[0]!.x === found.loop.vertices[0]!.x),
    );
    expect(mine).toHaveLength(outlines.length);
    outlines.forEach((outline, i) => {
      expect(outline.shape).toBe(true);
      expect(mine[i]!.layer).toBe(outline.layer);
      expect(mine[i]!.loop.vertices).toEqual(
        outline.vertices.map(({ x, y, bulge = 0 }) => ({ x, y, bulge })),
      );
    });
  });
});

test("the outside auditor sees what we would refuse: it is no rubber stamp", () => {
  const broken = files["sheet-1.dxf"]!.replace("$ACADVER\n1\nAC1015", "$ACADVER\n1\nAC1032").replace(
    /^5\n[0-9A-F]+\n(330\n[0-9A-F]+\n100\nAcDbEntity\n100\nAcDbPolyline\n8\nTHROUGH_INSIDE)/m,
    "5\n1\n$1",
  );
  const verdict = audit(folder, { "broken.dxf": broken })["broken.dxf"]!;
  expect(verdict.errors + verdict.fixes).toBeGreaterThan(0);
});

test("both releases hold the same areas", () => {
  const [newer, older] = [readDxf(files["sheet-1.dxf"]!), readDxf(files["sheet-1-r12.dxf"]!)];
  for (const layer of newer.layers.filter((name) => name !== "LABEL"))
    expect(areaOf(regionsOnLayer(older, layer))).toBeCloseTo(areaOf(regionsOnLayer(newer, layer)), 6);
});
