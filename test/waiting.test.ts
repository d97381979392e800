import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { makeJob } from "@dryfit/job";
import { afterAll, beforeAll, expect, test } from "vitest";
import { makeWithin } from "../packages/cli/src/make-within.ts";

const root = fileURLToPath(new URL("../", import.meta.url));
let shelf = "";
beforeAll(() => {
  shelf = mkdtempSync(join(tmpdir(), "dryfit-waiting-"));
});
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

test("Ctrl-C takes the best layout so far, and its steps make the same bytes again", async () => {
  const text = readFileSync(join(root, "samples/tidepool.yaml"), "utf8");
  const input = { design: { file: "tidepool.yaml", text }, machine: null, cutters: null, version: "0" };
  const stages: string[] = [];
  const made = await makeWithin(input, 600, (stage) => {
    stages.push(stage);
    // As soon as there is something to keep, as the terminal would.
    if (stage.startsWith("laying parts on sheets: 1 after 2500 steps")) process.emit("SIGINT");
  });
  expect(made.outcome).toBe("made");
  expect(stages).toContain("going on with the best layout so far (Ctrl-C again gives up)");
  expect(stages.at(-1)).toBe("drawing the papers");
  const again = await makeJob({ ...input, nesting: { steps: made.steps! } });
  expect(again.files).toEqual(made.files);
}, 600_000);

test("a time that is no time is told", () => {
  const folder = join(shelf, "none");
  const { status, stderr } = spawnSync(
    process.execPath,
    ["packages/cli/bin/dev.mjs", "make", "samples/lantern.yaml", "--seconds", "soon", "--out", folder],
    { cwd: root, encoding: "utf8" },
  );
  expect([status, stderr]).toEqual([
    2,
    '--seconds: found "soon"; allowed: a number above 0, at most 3600.\n',
  ]);
  expect(existsSync(folder)).toBe(false);
});
