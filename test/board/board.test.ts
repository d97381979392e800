import { readFileSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { makeJob } from "@dryfit/job";
import { strFromU8, unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { VERSION } from "../../packages/cli/src/version.ts";
import { boardUrl, builtPage, fresh, launch, proved, typeOn } from "./browser.ts";

let browser: Browser;
beforeAll(async () => {
  await builtPage();
  browser = await launch();
}, 120_000);
afterAll(() => browser?.close());

const TABS = ["case", "gear", "sheets", "cut", "stand-up", "papers"] as const;

const sample = (name: string): string =>
  readFileSync(new URL(`../../samples/${name}.yaml`, import.meta.url), "utf8");

describe("the page from disk", () => {
  test("weighs under 1.5 MB, asks nothing of a network and has no errors", async () => {
    expect(statSync(new URL(boardUrl)).size).toBeLessThan(1_500_000);
    const { page, errors, requests } = await fresh(browser);
    await page.goto(boardUrl);
    await proved(page);
    for (const tab of TABS) await page.click(`#tab-${tab}`);
    expect(errors).toEqual([]);
    expect(requests.filter((url) => !/^(file|blob|data|about):/.test(url))).toEqual([]);
    await page.context().close();
  });

  test("a new inside width changes base, rails, programs and proof, and one step takes it back", async () => {
    const { page } = await fresh(browser);
    await page.goto(boardUrl);
    await proved(page);
    const before = await page.locator("[aria-label='Outside width, derived']").textContent();
    await typeOn(page, "inside.width", "500");
    await page.locator(".verdict.working").waitFor();
    expect(await page.locator("[aria-label='Outside width, derived']").textContent()).toBe("(529.6)");
    await proved(page);
    const files = await takenAway(page);
    const job = JSON.parse(files["job.json"]!);
    const size = (id: string) => job.parts.find((part: { id: string }) => part.id === id).size[0];
    // 500 + 2 × 6.8, as explain says.
    expect([size("base"), size("rail-front")]).toEqual([513.6, 513.6]);
    expect(job.verification.pass).toBe(true);
    expect(files["design.yaml"]).toBe(sample("tidepool").replace("width: 540", "width: 500"));
    await page.keyboard.press("Control+z");
    expect(await page.locator("[aria-label='Outside width, derived']").textContent()).toBe(before);
    await page.context().close();
  });

  test("takes away of each sample what dryfit make writes, byte for byte", async () => {
    const { page } = await fresh(browser);
    await page.goto(boardUrl);
    for (const name of ["tidepool", "halyard", "skiff"]) {
      const design = { file: `samples/${name}.yaml`, text: sample(name) };
      await open(page, `${name}.yaml`, Buffer.from(design.text));
      await page.waitForFunction(`document.querySelector(".name [data-path=name]").value === "${name}"`);
      await proved(page);
      const made = await makeJob({ design, machine: null, cutters: null, version: VERSION });
      const files = await takenAway(page);
      expect(Object.keys(files).sort()).toEqual(made.files.map(({ file }) => file).sort());
      // One by one: a whole folder is too much to read where it differs.
      for (const { file, text } of made.files)
        expect({ name, file, same: files[file] === text }).toEqual({ name, file, same: true });
    }
    await page.context().close();
  }, 180_000);

  test("undo and redo go through all that was done, and the last work is kept for the next visit", async () => {
    const { page } = await fresh(browser);
    await page.goto(boardUrl);
    const width = page.locator('.case-sheet [data-path="inside.width"]');
    await typeOn(page, "inside.width", "20 in");
    await page.focus("[data-handle=crest]");
    await page.keyboard.press("ArrowUp");
    await page.getByRole("button", { name: "new", exact: true }).click();
    await page.click("#tab-gear");
    await page.locator(".turned-gear select").first().selectOption({ index: 1 });
    await page.click("#tab-case");
    const undo = page.getByRole("button", { name: "undo" });
    const text = (): Promise<string> => page.evaluate('JSON.parse(localStorage.getItem("dryfit.work")).text');
    for (let i = 0; i < 4; i++) await undo.click();
    expect(await undo.isDisabled()).toBe(true);
    expect(await width.inputValue()).toBe("540");
    const redo = page.getByRole("button", { name: "redo" });
    await redo.click();
    expect(await width.inputValue()).toBe("508");
    await page.waitForFunction('localStorage.getItem("dryfit.work")?.includes("20 in")');
    expect(await text()).toBe(sample("tidepool").replace("width: 540", "width: 20 in"));
    await page.reload();
    expect(await width.inputValue()).toBe("508");
    await page.context().close();
  });
});

describe("for everyone", () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

  test("no sheet has a serious fault by the accessibility engine, by day and by lamplight", async () => {
    const { page } = await fresh(browser);
    await page.goto(boardUrl);
    await proved(page);
    await page.evaluate(axe);
    for (const tab of TABS) {
      await page.click(`#tab-${tab}`);
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        expect({ tab, colorScheme, faults: await faultsOn(page) }).toEqual({ tab, colorScheme, faults: [] });
      }
    }
    await page.context().close();
  }, 120_000);

  test("nothing is wider than a phone", async () => {
    const { page } = await fresh(browser, { width: 390, height: 844 });
    await page.goto(boardUrl);
    for (const tab of TABS) {
      await page.click(`#tab-${tab}`);
      const width = await page.evaluate<number>("document.documentElement.scrollWidth");
      expect({ tab, width }).toEqual({ tab, width: 390 });
    }
    await page.context().close();
  });
});

async function open(page: Page, name: string, buffer: Buffer): Promise<void> {
  await page.locator("input[type=file]").setInputFiles({ name, mimeType: "text/yaml", buffer });
}

/** What the accessibility engine, already on the page, calls serious or critical. */
function faultsOn(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const { axe: engine } = globalThis as unknown as {
      axe: {
        run: () => Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>;
      };
    };
    const { violations } = await engine.run();
    return violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 160)}`);
  });
}

async function takenAway(page: Page): Promise<Readonly<Record<string, string>>> {
  const [download] = await Promise.all([page.waitForEvent("download"), page.click(".take-away")]);
  const zip = unzipSync(readFileSync(await download.path()));
  return Object.fromEntries(Object.entries(zip).map(([file, bytes]) => [file, strFromU8(bytes)]));
}
