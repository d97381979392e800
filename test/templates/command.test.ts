import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readDxf } from "@dryfit/dxf";
import { boundsOf } from "@dryfit/geometry";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { dryfitHere } from "../dryfit-here.ts";
import { audit } from "../dxf-audit.ts";
import { made, TOOLS } from "./bench.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
let shelf = "";
beforeAll(() => {
  shelf = mkdtempSync(join(tmpdir(), "dryfit-templates-"));
});
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

function templates(...args: string[]) {
  return dryfitHere(
    "templates",
    "samples/tidepool.yaml",
    "--tools",
    "samples/shop/hand-router.yaml",
    ...args,
  );
}

function tools(change: (text: string) => string): string {
  const file = join(shelf, "tools.yaml");
  writeFileSync(file, change(TOOLS));
  return file;
}

describe("making templates", () => {
  test("leaves papers, outlines and settings, the same bytes the second time", async () => {
    const folder = join(shelf, "tidepool");
    const first = await templates("--out", folder, "--json");
    expect(first.status).toBe(0);
    const { outcome, job } = JSON.parse(first.stdout);
    expect(outcome).toBe("made");
    const before = readAll(folder);
    expect([...before.keys()]).toEqual(
      expect.arrayContaining([
        "design.yaml",
        "job.json",
        "settings.pdf",
        "templates/cheek-left-housing-level-a4.pdf",
        "templates/cheek-left-outline.dxf",
        "tools.yaml",
      ]),
    );
    expect(job.files.map(({ file }: { file: string }) => file).sort()).toEqual(
      [...before.keys()].filter((file) => file !== "job.json"),
    );
    expect((await templates("--out", folder, "-q")).stdout).toBe("");
    expect(readAll(folder)).toEqual(before);
  });

  test("says what lies there and what to print first", async () => {
    const { stdout } = await templates("--out", join(shelf, "a3"), "--paper", "A3");
    expect(stdout).toMatch(
      /cheek-left-outline {2}1 × A3, cutter trim-12, bearing 12.7, edge to cut 0 mm, diagonal 403\.5 mm/,
    );
    expect(stdout).toContain("print settings.pdf first");
  });

  test("never writes over what it did not write", async () => {
    const folder = join(shelf, "mine");
    await templates("--out", folder, "-q");
    writeFileSync(join(folder, "notes.txt"), "bush 16 is bent");
    const { status, stderr } = await templates("--out", folder, "-q");
    expect(stderr).toContain("notes.txt");
    expect(status).toBe(2);
  });
});

describe("what cannot be made leaves nothing", () => {
  async function check(args: readonly string[], status: number, words: RegExp) {
    const folder = join(shelf, "none");
    const result = await dryfitHere("templates", ...args, "--out", folder);
    expect(result.stderr).toMatch(words);
    expect(result.status).toBe(status);
    expect(existsSync(folder)).toBe(false);
  }
  const tidepool = "samples/tidepool.yaml";
  const shop = ["--tools", "samples/shop/hand-router.yaml"] as const;

  test("no tools named", () => check([tidepool], 2, /required option '--tools <file>'/));
  test("a tools file that is not there", () =>
    check([tidepool, "--tools", "nowhere.yaml"], 2, /nowhere.yaml: there is no such file/));
  test("a tools file with a wrong key, at its line and column", () =>
    check(
      [tidepool, "--tools", tools((text) => text.replace("reach: 42", "raech: 42"))],
      2,
      /tools\.yaml:\d+:\d+.*[\s\S]*did you mean "reach"/,
    ));
  test("a paper that nobody stocks", () =>
    check([tidepool, ...shop, "--paper", "a5"], 2, /no paper "a5"; there are a4, a3, letter/));
  test("a print that was fitted to the page", () =>
    check(
      [tidepool, ...shop, "--measured-x", "94"],
      1,
      /print_off_scale[\s\S]*94 mm was fitted to the page/,
    ));
  test("a measurement that is none", () =>
    check([tidepool, ...shop, "--measured-y", "wide"], 2, /--measured-y: found "wide"/));
  test("no cutter that goes into the housings: each reason is told", () =>
    check(
      [
        tidepool,
        "--tools",
        tools((text) =>
          text.replace("diameter: 6\n", "diameter: 8\n").replace("cuttingLength: 11", "cuttingLength: 5"),
        ),
      ],
      1,
      /cutter_wide[\s\S]*Made nothing/,
    ));
  test("an opening's corner that is smaller than any bush allows", async () => {
    const design = join(shelf, "tight.yaml");
    const text = readFileSync(join(root, tidepool), "utf8").replace(
      "openings:\n",
      "openings:\n  - { id: plug, panel: rail-back, shape: rectangle, size: { width: 60, height: 30, corner: 3 }, from: { left: 100, floor: 60 } }\n",
    );
    writeFileSync(design, text);
    const only = tools((all) =>
      all.replace("diameter: 6\n    cuttingLength: 25", "diameter: 7\n    cuttingLength: 25"),
    );
    await check(
      [design, "--tools", only],
      1,
      /rail-back\.plug corner_tight[\s\S]*The opening "plug" of rail-back cannot be cut/,
    );
  });
  test("a design that cannot be made", async () => {
    const design = join(shelf, "thin.yaml");
    writeFileSync(design, readFileSync(join(root, tidepool), "utf8").replace("length: 6.8", "length: 12"));
    await check([design, ...shop], 1, /housing_deep/);
  });
});

describe("a template as DXF", () => {
  const drawnTools = TOOLS.replace("allowance: service", "allowance: drawn");
  const sizes = (text: string) =>
    readDxf(text)
      .loops.filter(({ layer }) => layer.startsWith("THROUGH"))
      .map(({ layer, loop }) => {
        const { min, max } = boundsOf(loop);
        return { layer, width: max.x - min.x, height: max.y - min.y };
      });
  const dxf = async (text: string) =>
    (await made("tidepool", "a4", { tools: text })).files.find(({ file }) => file.endsWith("level.dxf"))!
      .text;

  test("says that its sizes are nominal where the service allows for kerf", async () => {
    expect(await dxf(TOOLS)).toMatch(/^999\n.*Sizes are nominal, no kerf drawn in/);
    const hole = sizes(await dxf(TOOLS)).find(({ layer }) => layer === "THROUGH_INSIDE")!;
    // The housing of 7.2, with bush 10 and cutter 6.
    expect(hole.height).toBeCloseTo(11.2, 3);
  });
  test("has outsides larger and holes smaller by the kerf where it is drawn in, and says so", async () => {
    expect(await dxf(drawnTools)).toMatch(/^999\n.*Kerf 0.15 mm is drawn in/);
    const [nominal, drawn] = [sizes(await dxf(TOOLS)), sizes(await dxf(drawnTools))];
    nominal.forEach(({ layer, width }, i) => {
      const by = layer === "THROUGH_OUTSIDE" ? 0.15 : -0.15;
      expect(drawn[i]!.width - width).toBeCloseTo(by, 2);
    });
  });
  test("has nothing to correct for the outside auditor", async () => {
    const files = (await made("halyard", "a4")).files.filter(({ file }) => file.endsWith(".dxf"));
    const named = Object.fromEntries(files.map(({ file, text }) => [file.replace("/", "-"), text]));
    for (const verdict of Object.values(audit(shelf, named)))
      expect(verdict).toMatchObject({ errors: 0, fixes: 0, units: 4 });
  });
});

function readAll(folder: string): ReadonlyMap<string, string> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .sort();
  return new Map(names.map((name) => [name, readFileSync(join(folder, name), "utf8")]));
}
