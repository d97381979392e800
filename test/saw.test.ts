import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { dryfitHere } from "./dryfit-here.ts";

let shelf = "";
beforeAll(() => {
  shelf = mkdtempSync(join(tmpdir(), "dryfit-saw-"));
});
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

test("a saw plan lies in its folder, can be checked there, and tells what was changed", async () => {
  const folder = join(shelf, "skiff");
  const made = await dryfitHere("saw", "samples/skiff.yaml", "--kerf", "2,2", "--trim", "8", "--out", folder);
  expect(made.stdout).toMatch(/saw plan for 1 sheet\.\n {2}sheet-1 {2}800 × 600 mm, 12 blanks, \d+ cuts/);
  expect(made.status).toBe(0);
  expect(existsSync(join(folder, "saw/sheet-1.svg"))).toBe(true);
  expect(JSON.parse(readFileSync(join(folder, "job.json"), "utf8")).rules).toEqual({
    kerf: 2.2,
    trim: 8,
    stages: 3,
  });
  expect((await dryfitHere("check", folder, "-q")).status).toBe(0);
  writeFileSync(join(folder, "saw-plan.html"), "gone");
  const { status, stderr } = await dryfitHere("check", folder, "-q");
  expect(stderr).toContain("saw-plan.html was changed since it was made.");
  expect(status).toBe(0);
});

test("a blade that is none is told, and nothing is written", async () => {
  const folder = join(shelf, "none");
  const { status, stderr } = await dryfitHere("saw", "samples/skiff.yaml", "--kerf", "thin", "--out", folder);
  expect(stderr).toBe('--kerf: found "thin"; allowed: the blade\'s cut in mm, such as 2.4, from 0 to 10.\n');
  expect([status, existsSync(folder)]).toEqual([2, false]);
});
