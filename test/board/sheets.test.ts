import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { boardUrl, builtPage, faultsOn, fresh, launch, proved } from "./browser.ts";

/** One page for all: each test goes on where the one before it left the sheet. */
let browser: Browser;
let page: Page;
let errors: readonly string[];
beforeAll(async () => {
  await builtPage();
  browser = await launch();
  ({ page, errors } = await fresh(browser));
  await page.goto(boardUrl);
  await proved(page);
  await page.click("#tab-sheets");
}, 120_000);
afterAll(() => browser.close());

const laid = (part: string) => page.locator(`.laid[data-part=${part}]`);
const figure = (part: string, key: "x" | "y" | "sheet") => page.locator(`[data-path="lock.${part}.${key}"]`);
const made = () => page.waitForFunction("!document.querySelector('.older-parts')", null, { timeout: 50_000 });

describe("the sheets on the board", () => {
  test("show every part with its place, what is left to keep, and what holds them", async () => {
    expect(await page.locator(".laid").count()).toBe(12);
    expect(await laid("base").getAttribute("aria-label")).toMatch(
      /^Base, 7.8 deep, nested at x 10, y 10, turned 0°/,
    );
    const facts = await page.locator(".sheets-sheet .table").first().textContent();
    expect(facts).toMatch(/\d+ % lies in parts/);
    expect(facts).toMatch(/to keep[\d.]+ × [\d.]+/);
    await page.locator(".screw").first().waitFor();
    expect(await page.locator(".laid .tab").count()).toBeGreaterThan(5);
  });

  test("a part pushed by the arrow keys is locked there, and the rest nests round it", async () => {
    await laid("base").focus();
    await page.keyboard.press("Shift+ArrowRight");
    expect(await laid("base").getAttribute("aria-label")).toContain("locked at x 20, y 10");
    await made();
    await proved(page);
    expect(await figure("base", "x").inputValue()).toBe("20");
    expect(errors).toEqual([]);
  });

  test("what is taken away says so: the design locks it, and the job has it there", async () => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.click(".take-away")]);
    const zip = unzipSync(readFileSync(await download.path()));
    expect(strFromU8(zip["design.yaml"]!)).toContain("    - { part: base, x: 20, y: 10 }");
    const { parts } = JSON.parse(strFromU8(zip["job.json"]!));
    expect(parts.find(({ id }: { id: string }) => id === "base").placed).toEqual({
      turnDeg: 0,
      shift: [20, 10],
    });
  });

  test("a part dragged onto a locked one is refused under the hand, and said to lie amiss", async () => {
    const [from, to] = [(await laid("slat-1").boundingBox())!, (await laid("base").boundingBox())!];
    await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
    await page.mouse.down();
    await page.mouse.move(to.x + to.width / 2, to.y + to.height / 2, { steps: 4 });
    expect(await page.locator(".held-words").textContent()).toContain("too near base, which is locked");
    await page.mouse.up();
    await page.locator(".laid-notes li").waitFor({ timeout: 50_000 });
    expect(await page.locator(".laid-notes").textContent()).toContain(
      "base and slat-1 lie on the same wood of sheet-1.",
    );
    expect(await page.locator(".laid.amiss").count()).toBe(2);
  });

  test("a figure moves it away again, and typing nonsense says what is wanted", async () => {
    await figure("slat-1", "y").fill("high");
    await figure("slat-1", "y").press("Enter");
    expect(await page.locator(".why").textContent()).toContain("A length is wanted");
    await page.keyboard.press("Escape");
    await figure("slat-1", "x").fill("600");
    await figure("slat-1", "x").press("Enter");
    await figure("slat-1", "y").fill("1/2 in");
    await figure("slat-1", "y").press("Enter");
    await made();
    expect(await laid("slat-1").getAttribute("aria-label")).toContain("locked at x 600, y 12.7");
    expect(await page.locator(".laid.amiss").count()).toBe(0);
  });

  test("freed, all lies as it was nested at first, and a step back locks it again", async () => {
    await page.click("text=free all");
    await made();
    expect(await laid("base").getAttribute("aria-label")).toContain("nested at x 10, y 10");
    await page.keyboard.press("Control+z");
    expect(await laid("base").getAttribute("aria-label")).toContain("locked at x 20, y 10");
    await made();
  });

  test("has no serious fault by the accessibility engine on a phone in the dark, and fits it", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.emulateMedia({ colorScheme: "dark" });
    expect(await faultsOn(page)).toEqual([]);
    expect(await page.evaluate<number>("document.documentElement.scrollWidth")).toBe(390);
    expect(errors).toEqual([]);
  });
});
