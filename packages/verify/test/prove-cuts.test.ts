import { areaOf, CUT_MM } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import type { JobToProve } from "../src/proof.ts";
import { proveCuts } from "../src/prove-cuts.ts";
import { PLATE, plateJob, programText } from "./plate.ts";

const codesOf = (job: JobToProve) => proveCuts(job).findings.map(({ code }) => code);

describe("a good plate", () => {
  const proof = proveCuts(plateJob());
  test("is cut as designed", () => {
    expect(proof.findings).toEqual([]);
    for (const { gouge, uncut } of proof.perPart) expect(Math.max(gouge, uncut)).toBeLessThanOrEqual(CUT_MM);
  });
  test("is a stack of layers without gaps, a floor of the design at every change", () => {
    const [{ layers }] = proof.cutPartsAt("mean") as [ReturnType<typeof proof.cutPartsAt>[number]];
    expect(layers.map(({ from, to }) => [from, to])).toEqual([
      [0, 4],
      [4, 5],
      [5, 6],
      [6, 10],
    ]);
  });
  test("has the areas of its plan", () => {
    // derived: outline 80 × 60 less two corners of radius 10, the hole of radius 8 and the bore of radius 3
    const corners = 2 * (100 - 25 * Math.PI);
    const body = 4800 - corners - 64 * Math.PI - 9 * Math.PI;
    const housing = 7 * 40 - (36 - 9 * Math.PI);
    // derived: what the outline's round corner leaves of the top 6 mm: ∫ 10 − √(100 − y²) from 4 to 10
    const cap = 60 - (50 * (Math.PI / 2 - Math.asin(0.4)) - 2 * Math.sqrt(84));
    const [part] = proof.cutPartsAt("mean");
    const areas = part!.layers.map(({ solid }) => areaOf([...solid]));
    const expected = [body - 360 - housing, body - housing, body - housing - (480 - cap), body - (480 - cap)];
    for (const [i, area] of areas.entries()) expect(Math.abs(area - expected[i]!)).toBeLessThan(0.1);
  });
});

describe("a plate from a sheet of another thickness", () => {
  const thick = { ...PLATE, thickness: { min: 9.8, mean: 10, max: 10.4 } };
  /** The same heights over the sheet's face: 10 less than over the bed. */
  const fromTop = (text: string) => text.replace(/Z(-?[\d.]+)/g, (_, z) => `Z${Number(z) - 10}`);
  const topJob = (): JobToProve => {
    const job = plateJob({ part: thick });
    const programs = job.programs.map((program) => ({
      ...program,
      text: fromTop(program.text),
      zZero: "top" as const,
    }));
    return { ...job, programs };
  };

  test("keeps what is left under a floor where the bed is zero", () => {
    const [part] = proveCuts(plateJob({ part: thick })).cutPartsAt("max");
    // Housing 4 over the bed; rebates 6 over the bed and, turned over, 5 over it: depths from face A.
    const floors = part!.layers.map(({ to }) => Number(to.toFixed(6)));
    expect(floors).toEqual([4.4, 5, 6.4, 10.4]);
  });
  test("keeps a floor's depth where the top is zero, but is not cut through where it is thickest", () => {
    const proof = proveCuts(topJob());
    expect(proof.findings.map(({ code }) => code)).toEqual(["not_cut_through"]);
    const floors = proof.cutPartsAt("min")[0]!.layers.map(({ to }) => Number(to.toFixed(6)));
    expect(floors).toEqual([4, 4.8, 6, 9.8]);
  });
});

describe("a job", () => {
  test("in inches is as good as in millimetres", () => {
    const inches = programText("plate-a.nc")
      .replace("G21", "G20")
      .replace(/([XYZIJF])(-?[\d.]+)/g, (_, word, value) => `${word}${(Number(value) / 25.4).toFixed(6)}`);
    expect(codesOf(plateJob({ a: inches }))).toEqual([]);
  });
  test("whose sheet is turned over tells about which line", () =>
    expect(codesOf({ ...plateJob(), flips: {} })).toContain("flip_missing"));
  test("places every part", () => {
    const job = plateJob();
    const sheets = job.sheets.map((sheet) => ({ ...sheet, parts: [] }));
    expect(codesOf({ ...job, sheets })).toEqual(["part_not_placed"]);
  });
  test("knows its programs' sheets", () =>
    expect(codesOf({ ...plateJob(), sheets: [] })).toContain("unknown_sheet"));
  test("that names another cutter declares it", () => {
    const job = plateJob();
    const [a, b] = job.programs as [JobToProve["programs"][number], JobToProve["programs"][number]];
    const twice = { ...a, cutters: [...a.cutters, { ...a.cutters[0]!, number: 2, id: "second" }] };
    expect(codesOf({ ...job, programs: [twice, b] })).toEqual(["cutter_mismatch"]);
  });
  test("held by an onion skin needs no tabs, and no cut through", () => {
    const job = plateJob();
    // The whole outline stops 0.4 over the bed, where the tabs stood as well.
    const [head, tail] = programText("plate-a.nc").split("(outline") as [string, string];
    const outline = tail.replace(/G1 Z1\.5\n/g, "").replace(/Z-0\.2/g, "Z0.4");
    const [a, b] = job.programs as [JobToProve["programs"][number], JobToProve["programs"][number]];
    const skinned = { ...a, text: `${head}(outline${outline}`, tabs: [], skin: 0.4 };
    expect(codesOf({ ...job, programs: [skinned, b] })).toEqual([]);
    expect(codesOf({ ...job, programs: [{ ...skinned, skin: 0.3 }, b] })).toEqual(["skin_too_thick"]);
  });
});
