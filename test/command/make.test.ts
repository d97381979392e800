import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { dryfit } from "../dryfit.ts";
import { dryfitHere } from "../dryfit-here.ts";
import { emptyShelf } from "../shelf.ts";

const sample = "samples/tidepool.yaml";
const shelf = emptyShelf();

describe("making a case", () => {
  test("leaves the whole folder, proved, and the same bytes the second time", async () => {
    const folder = join(shelf(), "tidepool");
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
    expect((await dryfitHere("make", sample, "--out", folder)).status).toBe(0);
    expect(readAll(folder)).toEqual(before);
    expect(readdirSync(shelf())).toEqual(["tidepool"]);
  });

  test("is proved again from the folder alone", async () => {
    const { status, stdout } = await dryfitHere("check", join(shelf(), "tidepool"));
    expect(stdout).toMatch(/Proved: widest error 0\.\d{3} mm/);
    expect(status).toBe(0);
  });

  test("says which program was changed by hand, and proves it as it is now", async () => {
    const folder = join(shelf(), "tidepool");
    const program = join(folder, "gcode", readdirSync(join(folder, "gcode"))[0]!);
    const text = readFileSync(program, "utf8");
    writeFileSync(program, text.replace(/\nM5/, "\nG0 Z1\nG0 X0 Y0\nM5"));
    const { status, stderr } = await dryfitHere("check", folder);
    expect(stderr).toMatch(/file_changed/);
    expect(status).toBe(3);
    writeFileSync(program, text);
  });

  test("never writes over a file that somebody put or changed there", async () => {
    const folder = join(shelf(), "tidepool");
    writeFileSync(join(folder, "my-notes.txt"), "drill the feet on Sunday");
    const { status, stderr } = await dryfitHere("make", sample, "--out", folder);
    // Before any work: a note on the design would stand there.
    expect(stderr).not.toMatch(/^note/m);
    expect(stderr).toMatch(/did not write.*my-notes\.txt/);
    expect(status).toBe(2);
    expect(readFileSync(join(folder, "my-notes.txt"), "utf8")).toBe("drill the feet on Sunday");
    rmSync(join(folder, "my-notes.txt"));
  });

  test("leaves an empty shelf when the design cannot work", async () => {
    const folder = join(shelf(), "never");
    const { status, stderr } = await dryfitHere(
      "make",
      "test/broken/designs/tongue-too-thin.yaml",
      "--out",
      folder,
    );
    expect(stderr).toMatch(/error test\/broken\/designs\/tongue-too-thin\.yaml:\d+:\d+ tongue_thin/);
    expect(status).toBe(1);
    expect(existsSync(folder)).toBe(false);
  });
});

function readAll(folder: string): Map<string, string> {
  mkdirSync(folder, { recursive: true });
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  return new Map(names.sort().map((name) => [name.slice(folder.length + 1), readFileSync(name, "utf8")]));
}
