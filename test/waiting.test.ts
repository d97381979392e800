import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";

const root = fileURLToPath(new URL("../", import.meta.url));
const COMMAND = ["packages/cli/bin/dev.mjs", "make", "samples/skiff.yaml"];
let shelf = "";
beforeAll(() => {
  shelf = mkdtempSync(join(tmpdir(), "dryfit-waiting-"));
});
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

function read(folder: string): Map<string, string> {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).sort();
  return new Map(
    files.flatMap((file) => (/\.\w+$/.test(file) ? [[file, readFileSync(join(folder, file), "utf8")]] : [])),
  );
}

test("Ctrl-C takes the best layout so far, and its steps make the same bytes again", async () => {
  const [first, again] = [join(shelf, "first"), join(shelf, "again")];
  const child = spawn(process.execPath, [...COMMAND, "--seconds", "600", "--out", first], { cwd: root });
  let said = "";
  child.stdout.on("data", (text) => {
    said += text;
  });
  const ended = new Promise((done) => child.once("exit", done));
  setTimeout(() => child.kill("SIGINT"), 6000);
  expect(await ended).toBe(0);
  const steps = /--steps (\d+)/.exec(said)?.[1];
  expect(steps).toBeDefined();
  const { status } = spawnSync(process.execPath, [...COMMAND, "--steps", steps!, "--out", again], {
    cwd: root,
  });
  expect(status).toBe(0);
  expect(read(again)).toEqual(read(first));
}, 120_000);

test("a time that is no time is told", () => {
  const folder = join(shelf, "none");
  const { status, stderr } = spawnSync(process.execPath, [...COMMAND, "--seconds", "soon", "--out", folder], {
    cwd: root,
    encoding: "utf8",
  });
  expect([status, stderr]).toEqual([
    2,
    '--seconds: found "soon"; allowed: a number above 0, at most 3600.\n',
  ]);
  expect(existsSync(folder)).toBe(false);
});
