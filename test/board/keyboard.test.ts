import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { boardUrl, builtPage, fresh, launch, proved, unmade } from "./browser.ts";

let browser: Browser;
beforeAll(async () => {
  await builtPage();
  browser = await launch();
}, 120_000);
afterAll(() => browser?.close());

/** Tab, or Shift+Tab, until what is wanted holds the focus: what no key reaches, this does not find. */
async function tabTo(page: Page, wanted: string, back = false): Promise<void> {
  for (let i = 0; i < 200; i++) {
    await page.keyboard.press(back ? "Shift+Tab" : "Tab");
    if (await page.evaluate(`document.activeElement.matches(${JSON.stringify(wanted)})`)) return;
  }
  throw new Error(`${wanted} cannot be reached by keyboard`);
}

test("digits typed before the field's next frame all stay", async () => {
  const { page } = await unmade(browser);
  await page.goto(boardUrl);
  const typed = await page.evaluate<string>(`(async () => {
    const field = document.querySelector('.case-sheet [data-path="inside.width"]');
    const frame = () => new Promise((go) => requestAnimationFrame(go));
    field.focus();
    field.select();
    document.execCommand("insertText", false, "5");
    await frame();
    await frame();
    document.execCommand("insertText", false, "55");
    return field.value;
  })()`);
  expect(typed).toBe("555");
  await page.context().close();
});

test("a new case is changed, seen cut and taken away by keyboard alone", async () => {
  const { page } = await fresh(browser);
  await page.goto(boardUrl);
  await page.locator(".title-block").waitFor();
  await tabTo(page, "#new");
  await page.keyboard.press("Enter");
  await page.waitForFunction('document.querySelector("h1").textContent.includes("my-case")');
  await tabTo(page, "#tab-case");
  await tabTo(page, '[data-path="inside.width"]');
  await page.keyboard.type("555");
  await page.keyboard.press("Enter");
  expect(await page.locator('.case-sheet [data-path="inside.width"]').inputValue()).toBe("555");
  await tabTo(page, "#tab-case", true);
  for (let i = 0; i < 3; i++) await page.keyboard.press("ArrowRight");
  expect(await page.evaluate("document.activeElement.id")).toBe("tab-cut");
  await proved(page);
  await page.locator(".turned-cut canvas").first().waitFor();
  await tabTo(page, ".take-away");
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
  const zip = unzipSync(readFileSync(await download.path()));
  const job = JSON.parse(strFromU8(zip["job.json"]!));
  expect(job.parts.find(({ id }: { id: string }) => id === "base").size[0]).toBeCloseTo(555 + 2 * 6.8, 6);
  await page.context().close();
}, 120_000);
