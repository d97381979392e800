import { readFileSync, statSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  boardUrl,
  builtPage,
  faultsOn,
  fresh,
  launch,
  proved,
  takenAway,
  typeOn,
  unmade,
} from "./browser.ts";

/** One page for all but the last test: the case is proved once, and each test leaves it as it was. */
let browser: Browser;
let page: Page;
let errors: readonly string[];
let requests: readonly string[];
beforeAll(async () => {
  await builtPage();
  browser = await launch();
  ({ page, errors, requests } = await fresh(browser));
  await page.goto(boardUrl);
  await proved(page);
}, 120_000);
afterAll(() => browser?.close());

const TABS = ["case", "gear", "sheets", "cut", "stand-up", "papers"] as const;

const sample = (name: string): string =>
  readFileSync(new URL(`../../samples/${name}.yaml`, import.meta.url), "utf8");

describe("the page from disk", () => {
  test("weighs under 1.5 MB, asks nothing of a network and has no errors", async () => {
    expect(statSync(new URL(boardUrl)).size).toBeLessThan(1_500_000);
    for (const tab of TABS) await page.click(`#tab-${tab}`);
    expect(errors).toEqual([]);
    expect(requests.filter((url) => !/^(file|blob|data|about):/.test(url))).toEqual([]);
  });

  test("a new inside width changes base, rails, programs and proof, and one step takes it back", async () => {
    await page.click("#tab-case");
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
  });
});

describe("for everyone", () => {
  test("no sheet has a serious fault by the accessibility engine, by day and by lamplight", async () => {
    await proved(page);
    for (const tab of TABS) {
      await page.click(`#tab-${tab}`);
      // Lamplight changes colours and nothing else.
      for (const [colorScheme, rules] of [["light"], ["dark", ["color-contrast"]]] as const) {
        await page.emulateMedia({ colorScheme });
        const faults = await faultsOn(page, rules);
        expect({ tab, colorScheme, faults }).toEqual({ tab, colorScheme, faults: [] });
      }
    }
  }, 120_000);

  test("nothing is wider than a phone", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    for (const tab of TABS) {
      await page.click(`#tab-${tab}`);
      const width = await page.evaluate<number>("document.documentElement.scrollWidth");
      expect({ tab, width }).toEqual({ tab, width: 390 });
    }
  });
});

test("undo and redo go through all that was done, and the last work is kept for the next visit", async () => {
  const { page: other } = await unmade(browser);
  await other.goto(boardUrl);
  const width = other.locator('.case-sheet [data-path="inside.width"]');
  await typeOn(other, "inside.width", "20 in");
  await other.focus("[data-handle=crest]");
  await other.keyboard.press("ArrowUp");
  await other.getByRole("button", { name: "new", exact: true }).click();
  await other.click("#tab-gear");
  await other.locator(".turned-gear select").first().selectOption({ index: 1 });
  await other.click("#tab-case");
  const undo = other.getByRole("button", { name: "undo" });
  const text = (): Promise<string> => other.evaluate('JSON.parse(localStorage.getItem("dryfit.work")).text');
  for (let i = 0; i < 4; i++) await undo.click();
  expect(await undo.isDisabled()).toBe(true);
  expect(await width.inputValue()).toBe("540");
  const redo = other.getByRole("button", { name: "redo" });
  await redo.click();
  expect(await width.inputValue()).toBe("508");
  // It is kept a moment later; until then what was undone is.
  await expect.poll(text).toBe(sample("tidepool").replace("width: 540", "width: 20 in"));
  await other.reload();
  expect(await width.inputValue()).toBe("508");
  await other.context().close();
});
