import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { areaOfPart, readDesign, recipe } from "@dryfit/joinery";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { orderDrawings } from "../packages/job/src/order/drawn.ts";
import { readService } from "../packages/job/src/order/service.ts";
import { dryfitHere } from "./dryfit-here.ts";
import { audit } from "./dxf-audit.ts";

const root = fileURLToPath(new URL("../", import.meta.url));
let shelf = "";
beforeAll(() => {
  shelf = mkdtempSync(join(tmpdir(), "dryfit-orders-"));
});
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

const laser = readFileSync(join(root, "samples/shop/laser-service.yaml"), "utf8");

/** The lantern's drawings, one part a file, as some service wants them. */
function drawings(...changes: readonly (readonly [string, string])[]) {
  const text = changes.reduce((t, [from, to]) => t.replace(from, to), laser);
  const service = readService(text, "service.yaml");
  const design = readDesign(readFileSync(join(root, "samples/lantern.yaml"), "utf8"), "lantern.yaml");
  if (!service.ok || !design.ok) throw new Error("not read");
  const { parts } = recipe(design.value);
  const order = { design: design.value, service: service.value, revision: "0", parts, sheets: [] };
  return { parts, files: orderDrawings(order) };
}

describe("drawings for a service, judged by the outside auditor", () => {
  test.each([
    ["R12", 0],
    ["R12", 0.15],
    ["R2000", 0.15],
    ["R2000", 0],
  ])("%s with a kerf of %f: closed contours only, as large as the kerf makes them", (release, kerf) => {
    const { parts, files } = drawings(
      ["layout: nested", "layout: single"],
      ["release: R12", `release: ${release}`],
      ["width: 0.15", `width: ${kerf}`],
    );
    const verdicts = audit(
      shelf,
      Object.fromEntries(files.map(({ file, text }) => [file.replace("/", "-"), text])),
    );
    for (const { file, parts: ids } of files) {
      const verdict = verdicts[file.replace("/", "-")]!;
      expect(verdict).toMatchObject({ errors: 0, fixes: 0, messages: [], undefinedLayers: [] });
      expect(Object.keys(verdict.layers)).toEqual(["CUT"]);
      const { open, contours } = verdict.layers.CUT!;
      expect(open).toBe(0);
      const part = parts.find(({ id }) => id === ids[0])!;
      expect(contours).toHaveLength(1 + part.features.length);
      // Steiner: a contour grown by h gains its length times h, and what its turning sweeps; holes lose it.
      const [outer, ...holes] = [...contours].sort((a, b) => b.area - a.area);
      const left = outer!.area - holes.reduce((sum, { area }) => sum + area, 0);
      if (kerf === 0) expect(left).toBeCloseTo(areaOfPart(part), 0);
      else expect(left).toBeGreaterThan(areaOfPart(part));
      const [x0, y0, x1, y1] = outer!.box as [number, number, number, number];
      const { x, y } = sizeOf(part);
      expect(x1 - x0).toBeCloseTo(x + kerf, 2);
      expect(y1 - y0).toBeCloseTo(y + kerf, 2);
    }
  });
});

function sizeOf({ outline }: ReturnType<typeof drawings>["parts"][number]) {
  const xs = outline.vertices.map(({ x }) => x);
  const ys = outline.vertices.map(({ y }) => y);
  return { x: Math.max(...xs) - Math.min(...xs), y: Math.max(...ys) - Math.min(...ys) };
}

describe("the command", () => {
  test("leaves a folder that can be sent and checked, and tells what was changed in it", async () => {
    const folder = join(shelf, "order");
    const even = join(shelf, "even.yaml");
    const sample = readFileSync(join(root, "samples/lantern.yaml"), "utf8");
    writeFileSync(even, sample.replace(/thickness: \[.*\]/, "thickness: 5.95"));
    const service = join(shelf, "service.yaml");
    expect((await dryfitHere("new", service, "--service", "laser")).status).toBe(0);
    writeFileSync(service, readFileSync(service, "utf8").replace("layout: nested", "layout: single"));
    const made = await dryfitHere("order", even, "--service", service, "--out", folder);
    expect(made.stderr).not.toMatch(/^error/m);
    expect(made.status).toBe(0);
    expect(made.stdout).toMatch(/Proved from the drawings: widest error 0\.00\d mm/);
    expect(readdirSync(folder).sort()).toEqual([
      "design.yaml",
      "drawing.pdf",
      "dxf",
      "job.json",
      "keep",
      "order.txt",
      "service.yaml",
    ]);
    writeFileSync(join(folder, "order.txt"), "Please hurry.");
    const checked = await dryfitHere("check", folder);
    expect(checked.status).toBe(0);
    expect(checked.stderr).toMatch(/warning order\.txt file_changed/);
  }, 180_000);

  test("makes nothing where the service cannot, and says what would be possible", async () => {
    const folder = join(shelf, "blocked");
    const blocked = await dryfitHere(
      "order",
      "samples/skiff.yaml",
      "--service",
      "laser",
      "--out",
      folder,
      "--json",
    );
    expect(blocked.status).toBe(1);
    const { outcome, findings } = JSON.parse(blocked.stdout);
    expect(outcome).toBe("cannot");
    const [first] = findings.filter(({ code }: { code: string }) => code === "service_no_recesses");
    expect(first.wayOut).toMatch(/^Change the design to construction: layered/);
    expect(readdirSync(shelf)).not.toContain("blocked");
  });

  test("names a service that is not there, and one that cannot be read", async () => {
    const none = await dryfitHere("order", "samples/lantern.yaml", "--service", "lathe");
    expect(none).toMatchObject({ status: 2, stderr: expect.stringMatching(/Could not read lathe/) });
    const bad = join(shelf, "bad.yaml");
    writeFileSync(bad, laser.replace("cuts: through", "cuts: sideways"));
    const unread = await dryfitHere("order", "samples/lantern.yaml", "--service", bad);
    expect(unread.status).toBe(2);
    expect(unread.stderr).toMatch(/bad\.yaml:8:7 unreadable\s+Found "sideways"/);
  });

  test("checks a folder for what its job.json says it is", async () => {
    const folder = join(shelf, "templates");
    mkdirSync(folder);
    writeFileSync(join(folder, "job.json"), '{ "kind": "templates" }');
    const checked = await dryfitHere("check", folder, "-q");
    expect(checked.status).toBe(2);
    expect(checked.stderr).toMatch(/not_our_job[\s\S]*dryfit templates/);
  });
});
