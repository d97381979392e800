import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { resumePoints } from "@dryfit/gcode";
import { readProgram } from "@dryfit/verify";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { dryfitHere as dryfit } from "./dryfit-here.ts";

const root = fileURLToPath(new URL("../", import.meta.url));
let shelf = "";
const inShelf = (...names: string[]): string => join(shelf, ...names);

beforeAll(async () => {
  shelf = mkdtempSync(join(tmpdir(), "dryfit-machine-"));
  const made = await dryfit("make", join(root, "samples/tidepool.yaml"), "--out", inShelf("case"), "--quiet");
  expect(made.status).toBe(0);
}, 120_000);
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

/** A copy of the made case with one file changed. */
function withFile(name: string, file: string, change: (text: string) => string): string {
  cpSync(inShelf("case"), inShelf(name), { recursive: true });
  const path = inShelf(name, file);
  writeFileSync(path, change(readFileSync(path, "utf8")));
  return inShelf(name);
}

/** The command fails with this exit code, says this code or sentence, and writes nothing. */
async function refuses(status: number, said: RegExp, ...args: string[]): Promise<void> {
  const refused = await dryfit(...args);
  expect(refused.stderr).toMatch(said);
  expect(refused.stdout).toBe("");
  expect(refused.status).toBe(status);
}

const PROGRAM = "sheet-1-a-2.nc";

describe("an interrupted program", () => {
  test("can be taken up at each block that its comments name", async () => {
    const { stdout, status } = await dryfit("resume", inShelf("case"), "--list", "--program", PROGRAM);
    expect(status).toBe(0);
    const text = readFileSync(inShelf("case/gcode", PROGRAM), "utf8");
    for (const { block, line } of resumePoints(text)) {
      expect(stdout).toMatch(new RegExp(`^ +${block.replace(".", "\\.")} +line ${line} `, "m"));
      expect(text.split("\n")[line - 1]).toMatch(new RegExp(`Block ${block.replace(".", "\\.")}[:)]`));
    }
  });
  test("is taken up at a block, proved, and left beside the maker", async () => {
    const { stdout, status } = await dryfit(
      "resume",
      inShelf("case"),
      "--program",
      inShelf("case/gcode", PROGRAM),
      "--at",
      "3.2",
      "-o",
      inShelf("sheet-1-a-2-from-3-2.nc"),
    );
    expect(stdout).toMatch(/\/sheet-1-a-2-from-3-2\.nc begins at block 3\.2/);
    expect(stdout).toMatch(/Proved after all that comes before: widest error 0\.00\d mm/);
    expect(status).toBe(0);
    const rest = readProgram(readFileSync(inShelf("sheet-1-a-2-from-3-2.nc"), "utf8"));
    expect(rest.findings.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(rest.motions[0]).toMatchObject({ kind: "rapid", spindle: "off" });
  });
  test("is told as data", async () => {
    const { stdout } = await dryfit(
      "resume",
      inShelf("case"),
      "--program",
      PROGRAM,
      "--at",
      "2",
      "--json",
      "-o",
      inShelf("rest.nc"),
    );
    expect(JSON.parse(stdout)).toMatchObject({
      outcome: "made",
      program: inShelf("rest.nc"),
      point: { block: "2" },
    });
    expect(existsSync(inShelf("rest.nc"))).toBe(true);
  });
  test("is not written over another file", async () => {
    writeFileSync(inShelf("mine.nc"), "mine");
    await refuses(
      2,
      /mine\.nc is there already/,
      "resume",
      inShelf("case"),
      "--program",
      PROGRAM,
      "--at",
      "1",
      "-o",
      inShelf("mine.nc"),
    );
    expect(readFileSync(inShelf("mine.nc"), "utf8")).toBe("mine");
  });
  test("has no block that it has not", async () => {
    await refuses(
      2,
      /no_such_block[\s\S]*blocks 1 to \d+/,
      "resume",
      inShelf("case"),
      "--program",
      PROGRAM,
      "--at",
      "99",
    );
    await refuses(
      2,
      /no_such_block[\s\S]*block 3 has 2 passes/,
      "resume",
      inShelf("case"),
      "--program",
      PROGRAM,
      "--at",
      "3.9",
    );
  });
  test("is one of the folder's", async () => {
    await refuses(
      2,
      /no_such_program[\s\S]*sheet-1-a-1\.nc/,
      "resume",
      inShelf("case"),
      "--program",
      "other.nc",
      "--at",
      "1",
    );
    await refuses(2, /no_such_program/, "resume", inShelf("case"), "--list", "--program", "other.nc");
  });
  test("is the one that was proved", async () => {
    const folder = withFile("changed", `gcode/${PROGRAM}`, (text) => text.replace("F4100", "F4000"));
    await refuses(1, /program_changed/, "resume", folder, "--program", PROGRAM, "--at", "2");
  });
  test("lies in a folder that was proved", async () => {
    const folder = withFile("unproved", "job.json", (text) => text.replace('"pass": true', '"pass": false'));
    await refuses(1, /not_proved/, "resume", folder, "--program", PROGRAM, "--at", "2");
  });
  test("is not taken up where another program would now cut a part wrong", async () => {
    const across = "G0 X300.0 Y100.0\nG1 Z0.0 F600\nG1 Y500.0 F2000\nG0 Z19.8\n(End)";
    const folder = withFile("spoilt", "gcode/sheet-1-b-1.nc", (text) => text.replace("(End)", across));
    const { stderr, status } = await dryfit(
      "resume",
      folder,
      "--program",
      PROGRAM,
      "--at",
      "2",
      "-o",
      inShelf("never.nc"),
    );
    expect(stderr).toMatch(/file_changed/);
    expect(status).toBe(3);
    expect(existsSync(inShelf("never.nc"))).toBe(false);
  });
  test("needs a program and a block", async () => {
    await refuses(2, /--program .* --at/, "resume", inShelf("case"), "--program", PROGRAM);
    await refuses(
      2,
      /job\.json is not in the folder/,
      "resume",
      join(root, "samples"),
      "--program",
      PROGRAM,
      "--at",
      "1",
    );
  });
});

describe("before the cut", () => {
  test("a walk goes round the sheet in the air, once for each setup", async () => {
    const { stdout, status } = await dryfit("walk", inShelf("case"), "--out", inShelf("before"));
    expect(status).toBe(0);
    expect(stdout).toMatch(/before\/sheet-1-a-walk\.nc +\d+ s/);
    for (const setup of ["a", "b"]) {
      const { motions, facts } = readProgram(
        readFileSync(inShelf(`before/sheet-1-${setup}-walk.nc`), "utf8"),
      );
      expect(facts.extents).toMatchObject({ min: { x: 0, y: 0, z: 19.8 }, max: { x: 1220, y: 610 } });
      expect(motions.every(({ spindle, to }) => spindle === "off" && to.z >= 19.8)).toBe(true);
    }
  });
  test("spots for screws lie in waste, 2 mm deep", async () => {
    const { stdout, status } = await dryfit(
      "spots",
      inShelf("case"),
      "--cutter",
      "drill-3",
      "--out",
      inShelf("before"),
      "--json",
    );
    expect(status).toBe(0);
    const [{ file }] = JSON.parse(stdout).programs;
    const { facts } = readProgram(readFileSync(file, "utf8"));
    // derived: 14.8 thick, zero on the bed, 2 deep.
    expect(facts.deepest).toBeCloseTo(12.8, 3);
  });
  test("spots are not drilled with a cutter that is not there", () =>
    refuses(2, /no_such_cutter[\s\S]*drill-3/, "spots", inShelf("case"), "--cutter", "drill-9"));
  test("a folder of something else is refused", async () => {
    mkdirSync(inShelf("else"), { recursive: true });
    writeFileSync(inShelf("else/notes.txt"), "x");
    await refuses(2, /file_missing/, "walk", inShelf("else"));
    await refuses(2, /file_missing/, "spots", inShelf("else"));
    await refuses(2, /Could not read .*nowhere/, "walk", inShelf("nowhere"));
  });
});

describe("timing a machine", () => {
  const machine = readFileSync(join(root, "samples/shop/machine.yaml"), "utf8");
  test("gives two programs and the time they should take", async () => {
    const { stdout, status } = await dryfit("timing", "--out", inShelf("timing"));
    expect(status).toBe(0);
    expect(stdout).toMatch(/timing\/timing-corners\.nc +\d+\.\d s expected/);
    expect(existsSync(inShelf("timing/timing-steps.nc"))).toBe(true);
  });
  test("puts what they took into the machine file and leaves every other byte", async () => {
    writeFileSync(inShelf("machine.yaml"), machine);
    const args = ["timing", "--machine", inShelf("machine.yaml"), "--measured", "corners=1:30", "steps=9,5"];
    const trial = await dryfit(...args, "--dry-run");
    expect(trial.stdout).toMatch(/not written/);
    expect(readFileSync(inShelf("machine.yaml"), "utf8")).toBe(machine);
    const { stdout, status } = await dryfit(...args);
    expect(status).toBe(0);
    const acceleration = /timing\.acceleration +1 → (\S+)/.exec(stdout)![1];
    const seconds = /timing\.blockSeconds +0 → (\S+)/.exec(stdout)![1];
    expect(readFileSync(inShelf("machine.yaml"), "utf8")).toBe(
      machine.replace(
        "timing: { acceleration: 1, blockSeconds: 0 }",
        `timing: { acceleration: ${acceleration}, blockSeconds: ${seconds} }`,
      ),
    );
    // Now the estimate is what was measured.
    const again = await dryfit(
      "timing",
      "--machine",
      inShelf("machine.yaml"),
      "--out",
      inShelf("again"),
      "--json",
    );
    const [corners, steps] = JSON.parse(again.stdout).programs;
    expect(corners.seconds).toBeCloseTo(90, 0);
    expect(steps.seconds).toBeCloseTo(9.5, 0);
  });
  test("adds the group to a file that has none", async () => {
    writeFileSync(inShelf("bare.yaml"), machine.replace(/^timing: .*\n/m, ""));
    expect(
      (await dryfit("timing", "--machine", inShelf("bare.yaml"), "--measured", "corners=90")).status,
    ).toBe(0);
    expect(readFileSync(inShelf("bare.yaml"), "utf8")).toMatch(/^timing:/m);
  });
  test("refuses times that no machine takes, and words that are none", async () => {
    writeFileSync(inShelf("machine.yaml"), machine);
    const measured = (...times: string[]) => [
      "timing",
      "--machine",
      inShelf("machine.yaml"),
      "--measured",
      ...times,
    ];
    await refuses(1, /timing_impossible/, ...measured("corners=1"));
    await refuses(2, /--measured: found "corner=90"/, ...measured("corner=90"));
    await refuses(2, /--measured: found "steps=0"/, ...measured("steps=0"));
    await refuses(2, /Name the file to change/, "timing", "--measured", "corners=90");
    await refuses(2, /none\.yaml/, "timing", "--machine", inShelf("none.yaml"), "--measured", "corners=90");
    expect(readFileSync(inShelf("machine.yaml"), "utf8")).toBe(machine);
  });
});
