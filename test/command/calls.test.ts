import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { dryfit } from "../dryfit.ts";
import { dryfitHere } from "../dryfit-here.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const sample = "samples/skiff.yaml";

describe("bad calls are answered, not stack-traced", () => {
  async function check(args: string[], status: number, words: RegExp) {
    const answer = await dryfitHere(...args);
    expect(answer.stderr).toMatch(words);
    expect(answer.stderr).not.toMatch(/^\s+at /m);
    expect(answer.status).toBe(status);
  }
  test("a design that is not there", () =>
    check(["make", "nowhere.yaml"], 2, /Could not read nowhere\.yaml/));
  test("a folder in place of a design", () => check(["make", "samples"], 2, /it is a folder/));
  test("an unknown option", () => check(["make", sample, "--fast"], 2, /unknown option/));
  test("an unknown command", () => check(["mill"], 2, /unknown command/));
  test("a folder to check that is not there", () => check(["check", "nowhere"], 2, /Could not read nowhere/));
  test("a folder to check that is none of ours", () => check(["check", "samples"], 2, /not in the folder/));
  test("a service that there is none of", () =>
    check(["order", sample, "--service", "lasre"], 2, /no such file.*takes laser, router, or a file/));
  test("a schema that there is none of", () => check(["schema", "table"], 2, /design, machine, cutters/));
});

test("the version is the package's", () => {
  const { version } = JSON.parse(readFileSync(join(root, "packages/cli/package.json"), "utf8"));
  expect(dryfit("--version").stdout.trim()).toBe(version);
});

test("explain shows defaults, sums and feeds, as words and as JSON", async () => {
  const { stdout } = await dryfitHere("explain", "samples/tidepool.yaml");
  expect(stdout).toMatch(/Base blank across: .* = 540 \+ 2 × 6\.8 = 553\.6 mm/);
  expect(stdout).toMatch(/sheet\.margin: 10/);
  expect(stdout).toMatch(/feed in a full slot/);
  expect(stdout).toMatch(/Clear varnish: 2 × .* m² a litre [\d.]+ l; 4 h after each of 2 coats, 8 h/);
  expect(
    JSON.parse((await dryfitHere("explain", "samples/tidepool.yaml", "--json")).stdout).numbers.length,
  ).toBeGreaterThan(20);
});
