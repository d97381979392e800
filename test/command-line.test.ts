import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { dryfit } from "./dryfit.ts";

const root = fileURLToPath(new URL("../", import.meta.url));
let shelf = "";
beforeAll(() => {
  shelf = mkdtempSync(join(tmpdir(), "dryfit-shelf-"));
});
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

const sample = "samples/skiff.yaml";

describe("making a case", () => {
  test("leaves the whole folder, proved, and the same bytes the second time", () => {
    const folder = join(shelf, "skiff");
    const first = dryfit("make", sample, "--out", folder);
    expect(first.stderr).not.toMatch(/^error/m);
    expect(first.status).toBe(0);
    const before = readAll(folder);
    expect([...before.keys()]).toEqual(
      expect.arrayContaining([
        "build-sheet.html",
        "design.yaml",
        "dxf/parts/cheek-left.dxf",
        "dxf/sheet-1-r12.dxf",
        "dxf/sheet-1.dxf",
        "gcode/sheet-1-a-1.nc",
        "job.json",
        "preview/sheet-1.svg",
      ]),
    );
    const job = JSON.parse(before.get("job.json")!);
    expect(job.verification).toMatchObject({ pass: true });
    expect(Math.max(job.verification.gouge, job.verification.uncut)).toBeLessThanOrEqual(0.01);
    expect(dryfit("make", sample, "--out", folder).status).toBe(0);
    expect(readAll(folder)).toEqual(before);
    expect(readdirSync(shelf)).toEqual(["skiff"]);
  });

  test("is proved again from the folder alone", () => {
    const { status, stdout } = dryfit("check", join(shelf, "skiff"));
    expect(stdout).toMatch(/Proved: widest error 0\.\d{3} mm/);
    expect(status).toBe(0);
  });

  test("says which program was changed by hand, and proves it as it is now", () => {
    const folder = join(shelf, "skiff");
    const program = join(folder, "gcode", readdirSync(join(folder, "gcode"))[0]!);
    const text = readFileSync(program, "utf8");
    writeFileSync(program, text.replace(/\nM5/, "\nG0 Z1\nG0 X0 Y0\nM5"));
    const { status, stderr } = dryfit("check", folder);
    expect(stderr).toMatch(/file_changed/);
    expect(status).toBe(3);
    writeFileSync(program, text);
  });

  test("never writes over a file that somebody put or changed there", () => {
    const folder = join(shelf, "skiff");
    writeFileSync(join(folder, "my-notes.txt"), "drill the feet on Sunday");
    const { status, stderr } = dryfit("make", sample, "--out", folder);
    expect(stderr).toMatch(/did not write.*my-notes\.txt/);
    expect(status).toBe(2);
    expect(readFileSync(join(folder, "my-notes.txt"), "utf8")).toBe("drill the feet on Sunday");
    rmSync(join(folder, "my-notes.txt"));
  });

  test("leaves an empty shelf when the design cannot work", () => {
    const folder = join(shelf, "never");
    const { status, stderr } = dryfit("make", "test/broken/designs/tongue-too-thin.yaml", "--out", folder);
    expect(stderr).toMatch(/error test\/broken\/designs\/tongue-too-thin\.yaml:\d+:\d+ tongue_thin/);
    expect(status).toBe(1);
    expect(existsSync(folder)).toBe(false);
  });
});

describe("bad calls are answered, not stack-traced", () => {
  function check(args: string[], status: number, words: RegExp) {
    const answer = dryfit(...args);
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
  test("a schema that there is none of", () => check(["schema", "table"], 2, /design, machine, cutters/));
});

test("new writes a design that makes at once, and never over another", () => {
  const file = join(shelf, "mine.yaml");
  expect(dryfit("new", file).status).toBe(0);
  const made = dryfit("make", file, "--out", join(shelf, "mine"), "--json");
  expect(JSON.parse(made.stdout)).toMatchObject({ outcome: "made" });
  expect(made.status).toBe(0);
  expect(dryfit("new", file).stderr).toMatch(/exists already/);
});

test("a coupon is made, proved again from its folder, and its letters go into the design", () => {
  const [folder, file] = [join(shelf, "coupon"), join(shelf, "tried.yaml")];
  const before = readFileSync(join(root, "samples/tidepool.yaml"), "utf8");
  writeFileSync(file, before);
  const made = dryfit("coupon", file, "--out", folder);
  expect(made.stdout).toMatch(/2 parts on 1 sheet, 1 program/);
  expect(dryfit("check", folder).stdout).toMatch(/^Proved/m);
  const trial = dryfit("fit", file, "--coupon", folder, "--width", "C", "--dry-run");
  expect(trial.stdout).toMatch(/joint\.clearance\.side {2}0\.1 → 0\.05/);
  expect(readFileSync(file, "utf8")).toBe(before);
  expect(dryfit("fit", file, "--coupon", folder, "--width", "C", "--readings", "14,7 14,8").status).toBe(0);
  expect(readFileSync(file, "utf8")).toBe(
    before.replace("side: 0.1", "side: 0.05").replace("thickness: 14.8", "thickness: [14.7, 14.8]"),
  );
});

test("the version is the package's", () => {
  const { version } = JSON.parse(readFileSync(join(root, "packages/cli/package.json"), "utf8"));
  expect(dryfit("--version").stdout.trim()).toBe(version);
});

test("explain shows defaults, sums and feeds, as words and as JSON", () => {
  const { stdout } = dryfit("explain", "samples/tidepool.yaml");
  expect(stdout).toMatch(/Base blank across: .* = 540 \+ 2 × 6\.8 = 553\.6 mm/);
  expect(stdout).toMatch(/sheet\.margin: 10/);
  expect(stdout).toMatch(/feed in a full slot/);
  expect(
    JSON.parse(dryfit("explain", "samples/tidepool.yaml", "--json").stdout).numbers.length,
  ).toBeGreaterThan(20);
});

function readAll(folder: string): Map<string, string> {
  mkdirSync(folder, { recursive: true });
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  return new Map(names.sort().map((name) => [name.slice(folder.length + 1), readFileSync(name, "utf8")]));
}
