import { type BuildSheetData, buildSheet, paperHtml, sheetSvg } from "@dryfit/drawing";
import { finishOf, hardware } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";
import { isWellFormed } from "./markup.ts";
import { twoFaces } from "./pictures.ts";
import { sampleCase, sampleDesign } from "./samples.ts";

const assembly = sampleCase("tidepool");
const data: BuildSheetData = {
  assembly,
  revision: "4f2a91c0",
  verdict: { pass: true, sentence: "Proved: widest error 0.004 mm, nothing touches." },
  material: "birch <ply>",
  thickness: "14.8 mm",
  hardware: hardware(sampleDesign("tidepool")),
  sheets: [
    {
      id: "sheet-1",
      size: [1220, 610],
      grain: "x",
      parts: assembly.parts.map(({ id }) => id),
      yield: 0.62,
      flip: { axis: "y", at: 610 },
      svg: sheetSvg(twoFaces),
    },
  ],
  programs: [
    {
      file: "sheet-1-a-1.nc",
      sheet: "sheet-1",
      setup: "A",
      cutter: "6 mm up-cut",
      zZero: "bed",
      minutes: 12.4,
      extents: { min: { x: 7, y: 8, z: -0.5 }, max: { x: 1210, y: 600, z: 14.8 } },
      deepest: -0.5,
      tabs: 0,
    },
    {
      file: "sheet-1-b-1.nc",
      sheet: "sheet-1",
      setup: "B",
      cutter: "6 mm up-cut",
      zZero: "bed",
      minutes: 8.1,
      extents: null,
      deepest: null,
      tabs: 14,
    },
  ],
  joints: assembly.joints.map((joint) => ({
    id: joint.id,
    tongue: joint.tongue.part,
    housing: joint.housing.part,
    sideClearance: { min: 0.099, max: 0.101 },
    endGap: 0.4,
    shoulderGap: 0,
    interference: 0,
  })),
  order: ["base", "rail-front", "rail-back", "cheek-left", "cheek-right"],
  cost: null,
  finish: finishOf(assembly, null),
  measures: { diagonals: [676.8, 676.8], weightKg: 4.84, footing: { rocking: 0.002 } },
  findings: [
    { code: "a_note", severity: "note", path: "sheet", message: "This is a note.", numbers: {} },
    {
      code: "a_warning",
      severity: "warning",
      path: "tier",
      message: "Mind <this>.",
      numbers: {},
      wayOut: "Do that.",
    },
  ],
};
const html = paperHtml(buildSheet(data));

/** The plain words of one section. */
function words(id: string): string {
  const found = new RegExp(`<section id="${id}">(.*?)</section>`, "s").exec(html)?.[1] ?? "";
  return found
    .replace(/<style>.*?<\/style>/gs, "")
    .replace(/<[^>]+>/g, " ")
    .replace(/\s+/g, " ");
}

test("the paper is well formed and repeats byte for byte", () => {
  expect(isWellFormed(html.replace(/<style>.*?<\/style>/gs, ""))).toBe(true);
  expect(paperHtml(buildSheet(data))).toBe(html);
});

test("it opens from disk alone: no script, nothing fetched", () => {
  expect(html).not.toMatch(/<script|<link|@import|url\((?!#)|(src|href)="(?!#)/);
});

test("every drawing's ids are its own", () => {
  const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]!);
  expect(new Set(ids).size).toBe(ids.length);
  for (const [, used] of html.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(used);
});

test("the verdict comes first", () => {
  const main = html.slice(html.indexOf("<main>"));
  expect(main.indexOf("Proved: widest error")).toBeLessThan(main.indexOf("tidepool"));
});

test("a warning is told before a note, with its way out", () =>
  expect(words("findings")).toMatch(/1 .*Mind &lt;this&gt;\. Do that\. .*2 .*This is a note\./));

describe("the cut list", () => {
  // Worked numbers of the case.
  test.each([
    ["base", "553.6 349.6"],
    ["rail-front", "553.6 60.8"],
    ["rail-back", "553.6 136.8"],
  ])("gives %s as %s", (part, size) => expect(words("cut-list")).toContain(`${part} 1 ${size}`));
  test("has room for what the caliper says", () => expect(html).toContain('<td class="blank"></td>'));
});

test("each setup says how the sheet lies, where zero is, and what to run", () => {
  const text = words("setups");
  expect(text).toContain("Lay the sheet face A up, grain along X, its lower left corner at X0 Y0.");
  expect(text).toContain("Set Z0 on the bed");
  expect(text).toContain("run sheet-1-a-1.nc: 12 min, deepest Z -0.5.");
  expect(text).toContain(
    "Turn the sheet over about the upright line X 610 (its left edge becomes right edge)",
  );
  expect(text).toContain("sheet-1-a-1.nc A 6 mm up-cut bed 7 to 1210 8 to 600 -0.5 0 12.4");
});

test("every joint's figures are the proof's", () =>
  expect(words("joints")).toContain("Base Left cheek 0.099 0.4 0 none"));

test("the order says which way each part is pushed, and on to what", () => {
  const text = words("order");
  expect(text).toContain("Lay down the base.");
  expect(text).toContain("Push the front rail on from the front, until its shoulders close on the base.");
  expect(text).toContain(
    "Push the left cheek in from the left, until its shoulders close on the base, front rail and back rail.",
  );
});

test("the dry fit is checked against figures", () => {
  const text = words("dry-fit");
  expect(text).toContain("Both diagonals over the outside, seen from above, measure 676.8");
  expect(text).toContain("Between the cheeks 540");
  expect(text).toContain("All feet touch a flat slab; as cut they are within 0.002 mm of one plane.");
});

test("mains wiring is left to those who may do it, whether or not the design has an inlet", () =>
  expect(words("cautions")).toMatch(/rules of your country and for somebody who is licensed/));

test("the finish is told by area, with its litres, its waiting times and where they come from", () => {
  const text = words("finish");
  const { faces, edges, lines } = finishOf(assembly, null);
  expect(text).toContain(
    `There are ${faces} m² of faces, both sides of every part, and ${edges} m² of edges.`,
  );
  const [sealer, varnish] = lines;
  expect(text).toContain(`Sanding sealer 1 2 ${sealer!.area} 10 ${sealer!.litres} 2`);
  expect(text).toContain(`Clear varnish 2 2 ${varnish!.area} 12 ${varnish!.litres} 4`);
  // Two coats of each on the edges: 2 × 2 h and 2 × 4 h.
  expect(text).toContain("Coats wait 12 h in all");
  expect(text).toContain("common practice, no source");
  expect(text).toMatch(/about 4\.8 kg/);
});

test("a job without programs leaves their section out", () =>
  expect(paperHtml(buildSheet({ ...data, programs: [] }))).not.toContain('id="setups"'));
