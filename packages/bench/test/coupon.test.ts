import { readFileSync } from "node:fs";
import { readDxf } from "@dryfit/dxf";
import { boundsOf } from "@dryfit/geometry";
import { couponTrials, readDesign } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";
import { checkTemplates, makeTemplates, type TextFile } from "../src/index.ts";

const sample = (file: string): TextFile => ({
  file,
  text: readFileSync(new URL(`../../../samples/${file}`, import.meta.url), "utf8"),
});

function couponOf(name: string) {
  return makeTemplates({
    design: sample(`${name}.yaml`),
    tools: sample("shop/hand-router.yaml"),
    work: "coupon",
    paper: "a4",
    measured: { x: 100, y: 100 },
    version: "0",
  });
}

function trialsOf(name: string) {
  const { file, text } = sample(`${name}.yaml`);
  const read = readDesign(text, file);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return couponTrials(read.value);
}

describe.each(["tidepool", "skiff", "halyard"])("%s's coupon by hand", (name) => {
  test("has holes for the bush that rout every letter's width, once along the grain and once across", async () => {
    const { files, job } = await couponOf(name);
    const entry = job!.templates.find(({ id }) => id === "coupon-conventional-housings")!;
    const { loops } = readDxf(files.find(({ file }) => file === entry.dxf)!.text);
    const holes = loops.flatMap(({ layer, loop }) => (layer === "THROUGH_INSIDE" ? [boundsOf(loop)] : []));
    // Guide-bush offset: a hole is wider than its cut by bush less cutter.
    const widths = (level: boolean) =>
      holes
        .map(({ min, max }) => [max.x - min.x, max.y - min.y] as const)
        .filter(([x, y]) => x > y === level)
        .map(([x, y]) => Math.min(x, y) - 2 * entry.offset)
        .sort((a, b) => a - b);
    const { widths: tried, depths } = trialsOf(name);
    const now = tried.find((trial) => trial.now)!.size;
    const expected = tried.map(({ size }) => size);
    expect(widths(true)).toEqual(expected.map((width) => expect.closeTo(width, 2)));
    const across = [...expected, now].sort((a, b) => a - b);
    expect(widths(false)).toEqual(across.map((width) => expect.closeTo(width, 2)));
    // The depth that the design has now is routed with the widths; each other one has a board of its own.
    const others = job!.templates.filter(({ id }) => id.includes("-depth-")).map(({ depth }) => depth);
    expect(others).toEqual(depths.flatMap(({ size, now }) => (now ? [] : [expect.closeTo(size, 2)])));
    const paper = files.find(({ file }) => file === "coupon.html")!.text;
    expect(paper).toContain("Rout it in an offcut of the same sheet");
  });
});

test("a coupon's folder is proved again as one", async () => {
  const { files, job } = await couponOf("skiff");
  const checked = await checkTemplates(files);
  expect(checked.outcome).toBe("made");
  expect(checked.job!.revision).toBe(job!.revision);
  expect(checked.findings.filter(({ severity }) => severity !== "note")).toEqual([]);
});

test("a layered case has nothing to try by hand, and that is told with a way out", async () => {
  const { outcome, findings } = await couponOf("lantern");
  expect(outcome).toBe("cannot");
  const [told] = findings.filter(({ severity }) => severity === "error");
  expect(told).toMatchObject({ code: "coupon_not_by_hand", at: { line: 23 } });
  expect(told!.wayOut).toContain("without --tools");
});
