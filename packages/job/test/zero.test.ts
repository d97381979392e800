import { readFileSync } from "node:fs";
import { makeJob } from "@dryfit/job";
import { expect, test } from "vitest";
import { SHIPPED_MACHINE } from "../src/shipped-shop.ts";

/** What comes of a sample cut from a sheet with these readings, with zero on the sheet's upper face. */
async function cutFromTop(name: string, readings: string) {
  const sample = readFileSync(new URL(`../../../samples/${name}.yaml`, import.meta.url), "utf8");
  const design = {
    file: `${name}.yaml`,
    text: sample.replace(/^ {2}thickness: .*$/m, `  thickness: ${readings}`),
  };
  const machine = { file: "router.yaml", text: SHIPPED_MACHINE.text.replace("zZero: bed", "zZero: top") };
  const { outcome, findings } = await makeJob({ design, machine, cutters: null, version: "test" });
  return { outcome, errors: findings.filter(({ severity }) => severity === "error") };
}

test("tongues from rebates follow an uneven sheet's upper face: that is refused, with numbers, place and way out", async () => {
  const { outcome, errors } = await cutFromTop("tidepool", "[14.6, 14.8, 15.0]");
  expect(outcome).toBe("cannot");
  expect(new Set(errors.map(({ code }) => code))).toEqual(new Set(["zero_on_uneven_face"]));
  expect(errors.map(({ message }) => message.split("/")[0]).sort()).toEqual([
    "base",
    "rail-back",
    "rail-front",
  ]);
  for (const { path, numbers, wayOut, at } of errors) {
    expect(path).toBe("machine.zZero");
    expect(at).toMatchObject({ file: "router.yaml", line: 11 });
    expect(numbers).toMatchObject({ thickest: 15, mean: 14.8, bears: 0.02 });
    expect(numbers.thicker).toBeCloseTo(0.2, 9);
    expect(wayOut).toContain("zZero: bed");
  }
});

test("readings that hardly differ are cut from the upper face and proved", async () => {
  expect(await cutFromTop("tidepool", "[14.79, 14.8, 14.81]")).toEqual({ outcome: "made", errors: [] });
});

test("a case of through cuts only may be cut from an uneven sheet's upper face: its tabs are as much higher", async () => {
  expect(await cutFromTop("lantern", "[5.8, 6, 6.3]")).toEqual({ outcome: "made", errors: [] });
});
