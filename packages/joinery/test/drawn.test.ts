import {
  areaOf,
  boundsOf,
  type Curve,
  distanceTo,
  type Path,
  point,
  polyline,
  rectangle,
} from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import { type Design, type DrawnShape, designText, readDesign, recipe } from "../src/index.ts";
import { plainCase, plainText } from "./designs.ts";

/** Inside 200 deep, 50 high in front and 80 at the back. */
function withCrest(scale: number | "fit", line: Curve): Design {
  const design = plainCase({ cheek: { crest: { file: "crest.svg", units: "mm", scale } } });
  return { ...design, drawn: { "cheek.crest.file": shape(line) } };
}

function shape(curve: Curve): DrawnShape {
  return curve.closed
    ? { loops: [curve], paths: [], findings: [] }
    : { loops: [], paths: [curve], findings: [] };
}

function errors(design: Design) {
  return recipe(design).findings.filter(({ severity }) => severity === "error");
}

/** A hump: up and down again over a line that rises by 30 in 200. */
const hump = polyline([point(10, 5), point(60, 45), point(160, 50), point(210, 35)]);

describe("a crest of one's own", () => {
  test("runs from rail to rail as it was drawn, wherever in the drawing it lies", () => {
    const { parts, poses } = recipe(withCrest(1, hump));
    const cheek = parts.find(({ id }) => id === "cheek-left")!;
    const { y, z } = poses["cheek-left"]!.origin;
    // From its front end at y 0, z 50: 50 across and 40 up, 150 across and 45 up.
    for (const [across, up] of [
      [50, 90],
      [150, 95],
    ] as const)
      expect(distanceTo(cheek.outline, point<"panel">(across - y, up - z))).toBeLessThan(1e-6);
  });

  test("drawn from the back to the front is the same", () => {
    const back: Path = { closed: false, vertices: [...hump.vertices].reverse() };
    const area = (design: Design) => areaOf([{ outer: recipe(design).parts[0]!.outline, holes: [] }]);
    expect(area(withCrest(1, back))).toBeCloseTo(area(withCrest(1, hump)), 6);
  });

  test("that is drawn at another size says which scale would fit, and fits by itself where it may", () => {
    const half: Path = {
      closed: false,
      vertices: hump.vertices.map((v) => ({ ...v, x: v.x / 2, y: v.y / 2 })),
    };
    expect(errors(withCrest(1, half))).toMatchObject([
      {
        code: "drawing_off_ends",
        path: "cheek.crest.scale",
        wayOut: "Set cheek.crest.scale to 2, or to fit.",
      },
    ]);
    expect(errors(withCrest("fit", half))).toEqual([]);
    const [fitted, drawn] = [withCrest("fit", half), withCrest(1, hump)].map(
      (design) => recipe(design).parts[0]!,
    );
    expect(areaOf([{ outer: fitted!.outline, holes: [] }])).toBeCloseTo(
      areaOf([{ outer: drawn!.outline, holes: [] }]),
      6,
    );
  });

  test("that turns back on its way is refused", () => {
    const loop = polyline([point(0, 0), point(120, 40), point(80, 60), point(200, 30)]);
    expect(errors(withCrest(1, loop))).toMatchObject([
      { code: "crest_curve_impossible", path: "cheek.crest.file" },
    ]);
  });

  test("whose valley is narrower than the cutter is refused", () => {
    const cleft = polyline([
      point(0, 0),
      point(80, 40),
      point(98, 41),
      point(99, 20),
      point(101, 20),
      point(102, 41),
      point(140, 40),
      point(200, 30),
    ]);
    expect(errors(withCrest(1, cleft)).map(({ code }) => code)).toContain("drawing_too_fine");
  });

  test("keeps the cutter's radius in its inside corners", () => {
    const vee = polyline([point(0, 0), point(60, 40), point(100, 20), point(140, 40), point(200, 30)]);
    const { outline } = recipe(withCrest(1, vee)).parts[0]!;
    const { y, z } = recipe(withCrest(1, vee)).poses["cheek-left"]!.origin;
    // The vee opens by 2·atan(40/20) about its point: a disc of 3 stays 3 (1 / sin(half) − 1) off it. Derived.
    const half = Math.atan2(40, 20);
    const off = 3 * (1 / Math.sin(half) - 1);
    expect(distanceTo(outline, point<"panel">(100 - y, 70 - z))).toBeCloseTo(off, 3);
    const told = recipe(withCrest(1, vee)).findings.find(({ code }) => code === "drawing_rounded");
    expect(told?.numbers.rounded).toBeCloseTo(off, 3);
  });
});

describe("a cutout of one's own", () => {
  const design = (loop: Curve): Design => ({
    ...plainCase({
      openings: [{ id: "badge", panel: "rail-back", file: "badge.dxf", from: { left: 150, floor: 40 } }],
    }),
    drawn: { "openings[0].file": shape(loop) },
  });
  const cut = (loop: Curve) =>
    recipe(design(loop))
      .parts.find(({ id }) => id === "rail-back")!
      .features.flatMap((f) => (f.kind === "opening" ? [f.loop] : []));

  test("stands with the middle of its box where the design says, its inside corners the cutter's", () => {
    const [badge] = cut(rectangle(point(100, 100), point(140, 120)));
    const { min, max } = boundsOf(badge!);
    // The rail begins a tongue's length left of the inside, and the sheet's thickness under the floor.
    expect((min.x + max.x) / 2).toBeCloseTo(150 + 6.8, 6);
    expect((min.y + max.y) / 2).toBeCloseTo(40 + 14.8, 6);
    expect(max.x - min.x).toBeCloseTo(40, 6);
    // Derived: four corners of radius 3 lose (4 − π) r².
    expect(areaOf([{ outer: badge!, holes: [] }])).toBeCloseTo(800 - (4 - Math.PI) * 9, 2);
  });

  test("runs into other things like any cutout", () => {
    expect(errors(design(rectangle(point(0, 0), point(200, 120)))).map(({ code }) => code)).toContain(
      "opening_off_panel",
    );
  });
});

describe("the design's keys for drawings", () => {
  const message = (changes: Readonly<Record<string, unknown>>) => {
    const read = readDesign(plainText(changes), "case.yaml");
    return read.ok ? "" : read.problems.map((p) => p.message).join("\n");
  };
  const opening = (keys: object) => ({
    openings: [{ panel: "base", from: { left: 50, front: 50 }, ...keys }],
  });

  test.each([
    [
      { cheek: { crest: { file: "a.svg", form: "arc" } } },
      /crest.form: found "arc"; allowed: nothing beside/,
    ],
    [
      { cheek: { crest: { units: "mm" } } },
      /crest.units: found "mm"; allowed: it beside a drawing's file only/,
    ],
    [{ cheek: { crest: { file: "../a.svg" } } }, /crest.file: found "..\/a.svg"; allowed: a DXF or SVG file/],
    [{ cheek: { crest: { file: "dxf/a.dxf" } } }, /crest.file: found/],
    [opening({}), /shape: found nothing.*"rectangle", "circle"/],
    [opening({ file: "a.dxf", shape: "circle" }), /shape: found "circle"; allowed: nothing beside/],
    [opening({ file: "a.dxf", scale: "fit" }), /scale: found "fit"; allowed: a number/],
    [opening({ file: "a.dxf", scale: -1 }), /scale: found -1; allowed: a number over 0/],
    [opening({ file: "a.pdf" }), /file: found "a.pdf"; allowed: a DXF or SVG file/],
  ])("%o", (changes, expected) => expect(message(changes)).toMatch(expected));

  test("read the same from the text that leaves nothing out", () => {
    const given = plainCase({
      cheek: { crest: { file: "art/crest.dxf", scale: "fit", layer: "CREST" } },
      ...opening({ id: "star", file: "star.svg", units: "px", scale: 2 }),
    });
    const again = readDesign(designText(given), "again.yaml");
    expect(again.ok && again.value).toEqual(given);
  });
});
