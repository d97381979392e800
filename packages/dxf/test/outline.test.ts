import { readFileSync } from "node:fs";
import {
  areaOf,
  boundsOf,
  difference,
  distanceTo,
  lengthOf,
  pointAt,
  type Region,
  signedArea,
} from "@dryfit/geometry";
import type { DrawingRef } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";
import { readOutline } from "../src/index.ts";

/** Files as makers send them, drawn for these tests. */
function read(file: string, ref: Partial<DrawingRef> = {}, wants: "contours" | "line" = "contours") {
  const text = readFileSync(new URL(`../../../test/data/outlines/${file}`, import.meta.url), "utf8");
  return readText(text, file, ref, wants);
}

function readText(
  text: string,
  file: string,
  ref: Partial<DrawingRef> = {},
  wants: "contours" | "line" = "contours",
) {
  const whole: DrawingRef = { file, units: null, scale: 1, layer: null, ...ref };
  return readOutline(text, whole, { wants, field: "openings[0].file" });
}

function codes(shape: ReturnType<typeof read>) {
  return shape.findings.map(({ code }) => code);
}

function errors(shape: ReturnType<typeof read>) {
  return shape.findings.filter(({ severity }) => severity === "error");
}

function areas(shape: ReturnType<typeof read>) {
  return shape.loops.map((loop) => signedArea(loop));
}

describe("messy files are read", () => {
  test("a crest of loose strokes, in any order and direction, is one line", () => {
    const crest = read("crest-loose-ends.dxf", { units: "mm" }, "line");
    expect(crest.paths).toHaveLength(1);
    expect(codes(crest)).toEqual(["drawing_gap_closed"]);
    const [path] = crest.paths;
    const ends = [pointAt(path!, 0), pointAt(path!, lengthOf(path!))].sort((a, b) => a.x - b.x);
    expect(ends[0]!.x).toBeCloseTo(0, 6);
    expect(ends[1]).toMatchObject({ x: 200, y: 30 });
    // Two arcs of 60 across and 15 up each: r sin t = 60, r (1 - cos t) = 15. Derived.
    const t = 2 * Math.atan(15 / 60);
    expect(lengthOf(path!)).toBeCloseTo(40 + 40 + (2 * 60 * t) / Math.sin(t), 0);
  });

  test("strokes drawn twice, either way round, count once and are told", () => {
    const star = read("star-doubles.dxf");
    expect(codes(star)).toEqual(["drawing_double", "drawing_double", "drawing_double"]);
    // Ten triangles with sides 20 and 10 and 36° between them. Derived.
    expect(areas(star)[0]).toBeCloseTo(10 * 0.5 * 20 * 10 * Math.sin(Math.PI / 5), 1);
  });

  test("splines, rational ones too, become arcs; words and points are left out", () => {
    const leaf = read("leaf-splines.dxf");
    expect(codes(leaf)).toEqual(["drawing_left_out", "drawing_left_out"]);
    const quarter = leaf.loops[1]!;
    expect(signedArea(quarter)).toBeCloseTo((Math.PI * 15 ** 2) / 4, 2);
    expect(quarter.vertices).toHaveLength(3);
    // Bézier curves of 0,0 10,18 40,18 60,0 and 60,0 45,-16 15,-16 0,0 by their own formula.
    for (let i = 0; i <= 40; i++) {
      const s = i / 40;
      const b = [(1 - s) ** 3, 3 * s * (1 - s) ** 2, 3 * s * s * (1 - s), s ** 3] as const;
      const upper = { x: 10 * b[1] + 40 * b[2] + 60 * b[3], y: 18 * b[1] + 18 * b[2] };
      const lower = { x: 60 * b[0] + 45 * b[1] + 15 * b[2], y: -16 * b[1] - 16 * b[2] };
      for (const p of [upper, lower]) expect(distanceTo(leaf.loops[0]!, p)).toBeLessThan(0.0045);
    }
    expect(leaf.loops[0]!.vertices.length).toBeLessThan(20);
  });

  test("inches are inches", () => {
    const { min, max } = boundsOf(read("badge-inches.dxf").loops);
    expect(max.x - min.x).toBeCloseTo(50.8, 6);
    expect(max.y - min.y).toBeCloseTo(25.4, 6);
  });

  test("blocks in blocks are unfolded: turned, mirrored, larger, in rows", () => {
    const cut = read("nested-blocks.dxf", { layer: "CUT" });
    expect(cut.findings).toEqual([]);
    const half = (Math.PI * 25) / 2;
    const expected = [4 * half, 4 * half, half, half, half, half];
    for (const [i, area] of areas(cut).entries()) expect(area).toBeCloseTo(expected[i]!, 6);
  });

  test("arcs seen from behind and sides that run against each other close one slot", () => {
    expect(areas(read("slot-reversed-arcs.dxf"))[0]).toBeCloseTo(30 * 12 + Math.PI * 36, 6);
  });

  test("ends a hair apart are one corner", () => {
    const moon = read("moon-tiny-gaps.svg");
    expect(codes(moon)).toEqual(["drawing_gap_closed"]);
    // Half a disc of 20, less the segment of a disc of 30 over the same chord. Derived, to the gaps' width.
    const angle = 2 * Math.asin(20 / 30);
    const segment = (900 / 2) * (angle - Math.sin(angle));
    expect(areas(moon)[0]).toBeCloseTo((Math.PI * 400) / 2 - segment, -1);
  });

  test("transforms, uses, skews and groups are carried out", () => {
    const tiles = read("tiles-transforms.svg");
    expect(codes(tiles)).toEqual(["drawing_left_out"]);
    const k = 25.4 / 100;
    const tile = 200 - (4 - Math.PI) * 4;
    const expected = [Math.PI * 400, Math.PI * 360, tile, 4 * tile, 600];
    const found = [...areas(tiles)].sort((a, b) => a - b);
    for (const [i, area] of expected.sort((a, b) => a - b).entries())
      expect(found[i]! / k ** 2).toBeCloseTo(area, 0);
    expect(read("tiles-transforms.svg", { layer: "tiles" }).loops).toHaveLength(2);
  });

  test("ellipses become arcs", () => {
    const [whole, half] = areas(read("ellipses.dxf"));
    expect(whole).toBeCloseTo(Math.PI * 25 * 15, 1);
    expect(half).toBeCloseTo((Math.PI * 20 * 10) / 2, 1);
  });
});

describe("files are refused for the right reason, at the right place", () => {
  test.each([
    ["bow-tie.svg", "drawing_crossing", "bow-tie.svg:5", /x 30, y 20/],
    ["boat-open.svg", "drawing_open", "boat-open.svg:2", /3 mm away/],
    ["ring-island.svg", "drawing_island", "ring-island.svg:3", /x 18, y 30/],
    ["arrow-fork.dxf", "drawing_fork", "arrow-fork.dxf:34", /x 40, y 20/],
    ["cut-off.dxf", "drawing_unreadable", "cut-off.dxf:22", /not whole/],
    ["nested-blocks.dxf", "drawing_stroke_unread", "nested-blocks.dxf:142", /GONE/],
  ] as const)("%s: %s", (file, code, path, message) => {
    expect(errors(read(file))).toMatchObject([{ code, path, message: expect.stringMatching(message) }]);
  });

  test.each(["wave-pixels.svg", "crest-loose-ends.dxf"])("%s asks for its unit, and says where", (file) => {
    expect(errors(read(file, {}, "line"))).toMatchObject([
      { code: "drawing_no_units", wayOut: expect.stringContaining("openings[0].units") },
    ]);
    expect(errors(read(file, { units: "mm" }, "line"))).toEqual([]);
  });

  test("a unit that the design gives goes before the file's, and that is told", () => {
    const badge = read("badge-inches.dxf", { units: "mm" });
    expect(codes(badge)).toEqual(["drawing_units_differ"]);
    expect(boundsOf(badge.loops).max.x).toBeCloseTo(2, 6);
  });

  test("a closed contour is no crest, and a line is no cutout", () => {
    expect(codes(read("badge-inches.dxf", {}, "line"))).toContain("drawing_closed");
    expect(codes(read("wave-pixels.svg", { units: "px" }))).toContain("drawing_open");
  });

  test("a layer that is not there is named with those that are", () => {
    expect(errors(read("nested-blocks.dxf", { layer: "cut" }))).toMatchObject([
      { code: "drawing_empty", wayOut: expect.stringMatching(/CUT/) },
    ]);
  });
});

describe("no text at all breaks the reader", () => {
  const files = ["tiles-transforms.svg", "leaf-splines.dxf", "nested-blocks.dxf", "moon-tiny-gaps.svg"];
  test.each(files)("%s cut off anywhere, or with any letter gone, says what is wrong or reads", (file) => {
    const text = readFileSync(new URL(`../../../test/data/outlines/${file}`, import.meta.url), "utf8");
    for (let i = 0; i < text.length; i += 7) {
      for (const damaged of [text.slice(0, i), text.slice(0, i) + text.slice(i + 1)]) {
        const shape = readText(damaged, file, { units: "mm" });
        const boxes = shape.loops.map((loop) => boundsOf(loop));
        for (const { min, max } of boxes)
          for (const v of [min.x, min.y, max.x, max.y]) expect(v).not.toBeNaN();
      }
    }
  });
});

test("an arc of any kind in path data is the circle that it says", () => {
  const svg = (d: string) =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><path d="${d}"/></svg>`;
  const disc = areaOf(readText(svg("M50 30a20 20 0 1 1-.001 0z"), "a.svg").loops.map(region));
  expect(disc).toBeCloseTo(Math.PI * 400, 1);
  // The same square by every kind of straight command.
  const square = readText(svg("M10 10h20v20H10z"), "a.svg").loops.map(region);
  const other = readText(svg("m10,10 20,0 0 20-20,0Z"), "a.svg").loops.map(region);
  expect(areaOf(difference(square, other))).toBeCloseTo(0, 9);
  // Smooth commands mirror the control point before them: SVG 1.1, 8.3.6 and 8.3.7.
  const s = lengthOf(readText(svg("M0 50C0 20 50 20 50 50S100 80 100 50"), "a.svg", {}, "line").paths[0]!);
  const c = lengthOf(
    readText(svg("M0 50C0 20 50 20 50 50C50 80 100 80 100 50"), "a.svg", {}, "line").paths[0]!,
  );
  expect(s).toBeCloseTo(c, 9);
  const t = lengthOf(readText(svg("M0 50Q25 0 50 50T100 50"), "a.svg", {}, "line").paths[0]!);
  const q = lengthOf(readText(svg("M0 50Q25 0 50 50Q75 100 100 50"), "a.svg", {}, "line").paths[0]!);
  expect(t).toBeCloseTo(q, 9);
});

function region(outer: ReturnType<typeof read>["loops"][number]): Region {
  return { outer, holes: [] };
}
