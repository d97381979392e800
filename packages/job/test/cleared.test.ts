import { readFileSync } from "node:fs";
import { checkJob, explainJob, makeJob } from "@dryfit/job";
import { expect, test } from "vitest";
import { SHIPPED_MACHINE } from "../src/shipped-shop.ts";

const design = {
  file: "skiff.yaml",
  text: readFileSync(new URL("../../../samples/skiff.yaml", import.meta.url), "utf8"),
};
const text = SHIPPED_MACHINE.text.replace(
  "clearing: { method: auto, engagementDeg: null }",
  "clearing: { method: engagement, engagementDeg: 90 }",
);
const input = { design, machine: { file: "router.yaml", text }, cutters: null, version: "test" };

test("a folder says how each recess was cleared, and how much of the rim its programs' texts were found to engage", async () => {
  const { outcome, job, files, findings } = await makeJob(input, undefined, undefined, "coupon");
  expect(outcome).toBe("made");
  expect(findings.filter(({ code }) => code === OVER)).toEqual([]);
  const cleared = job!.sheets.flatMap(({ programs }) => programs.flatMap((program) => program.cleared));
  const held = cleared.filter(({ method }) => method === "engagement");
  expect(held.length).toBeGreaterThan(2);
  for (const { limitDeg, engagementDeg, highestDeg, minutes } of held) {
    expect(limitDeg).toBe(90);
    expect(engagementDeg).toBeLessThanOrEqual(90);
    // What is planned is what is found, but for print and the places between those looked at.
    expect(Math.abs(highestDeg! - engagementDeg)).toBeLessThan(9);
    expect(minutes).toBeGreaterThan(0);
  }

  // The same cuts where less was promised: told of, with the angle and the place.
  const less = files.map(({ file, text: own }) => ({
    file,
    text: file === "job.json" ? own.replace(/"limitDeg": 90/g, '"limitDeg": 72') : own,
  }));
  const over = (await checkJob(less)).findings.filter(({ code }) => code === OVER);
  expect(over.length).toBe(held.length);
  for (const { path, severity, numbers, wayOut } of over) {
    expect(path).toMatch(/^sheet-1-[ab]-\d\.nc:\d+$/);
    expect(severity).toBe("warning");
    expect(numbers).toMatchObject({ asked: 72, x: expect.any(Number), y: expect.any(Number) });
    expect(numbers.engagement).toBeGreaterThan(79);
    expect(wayOut).not.toBe("");
  }
}, 180_000);

const OVER = "engagement_over_limit";

test("how each recess of a case will be cleared is explained", () => {
  const explained = explainJob({ ...input, machine: null });
  expect(explained.ok && explained.clearing).toContainEqual({
    part: "base",
    feature: "rebate",
    method: "contour",
    engagementDeg: 180,
    limitDeg: null,
    highestDeg: null,
    minutes: expect.any(Number),
  });
});
