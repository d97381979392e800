import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { boardUrl, builtPage, faultsOn, fresh, launch, proved } from "./browser.ts";

/** One page for all: the case is proved once, and each test turns to it anew. */
let browser: Browser;
let page: Page;
let errors: readonly string[];
beforeAll(async () => {
  await builtPage();
  browser = await launch({ at3D: true });
  // As small as a desk's page gets: the processor paints every pixel of the case.
  ({ page, errors } = await fresh(browser, { width: 1024, height: 700 }));
  await page.addInitScript({
    content: `let frames = 0; const ask = requestAnimationFrame;
      window.requestAnimationFrame = (work) => (frames++, ask(work)); window.framesAsked = () => frames;`,
  });
  await page.goto(boardUrl);
  await proved(page);
}, 120_000);
afterAll(() => browser.close());

beforeEach(async () => {
  await page.click("#tab-gear");
  await page.click("#tab-stand-up");
}, 60_000);

const SLIDER = "input[aria-label^='From apart']";

describe("the case stood up", () => {
  test("goes together by keyboard, shows its joints and swings its lid", async () => {
    const words = () => page.locator(SLIDER).getAttribute("aria-valuetext");
    expect(await words()).toBe("Apart: 12 parts, Base first.");
    const apart = await drawn();
    await page.locator(SLIDER).focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowRight");
    expect(await words()).toBe("Step 4 of 11: Right cheek, from the right, is home.");
    for (let i = 0; i < 7; i++) await page.keyboard.press("ArrowRight");
    expect(await words()).toBe("Closed: every part is home.");
    const closed = await drawn();
    expect(closed.equals(apart)).toBe(false);

    await page.locator(".stage canvas").focus();
    await page.keyboard.press("ArrowLeft");
    expect(await page.locator(".stage canvas").getAttribute("aria-label")).toContain("42° to the right");
    expect((await drawn()).equals(closed)).toBe(false);

    await page.click(".joints >> text=Front rail in right cheek");
    // The design's clearances, as cut: 0.1 beside, 0.4 under, the shoulder closed.
    expect(await page.locator(".joint-view svg").getAttribute("aria-label")).toBe(
      "Section of Front rail in right cheek: air beside the tongue 0.10 mm, air beside the tongue 0.10 mm, under it 0.40 mm, at the shoulder 0.00 mm.",
    );

    const lid = page.locator(".lid input");
    await lid.press("End");
    // The design asks for 1 mm at the slats' ends.
    expect(await lid.getAttribute("aria-valuetext")).toBe(
      "open 90°, least air 1.00 mm, beside the left cheek",
    );
    expect(errors).toEqual([]);
  });

  test("rests when nothing changes", async () => {
    await page.waitForTimeout(500);
    const before = await page.evaluate<number>("framesAsked()");
    await page.waitForTimeout(400);
    expect(await page.evaluate<number>("framesAsked()")).toBe(before);
  });

  test("says lengths in inches at the switch", async () => {
    const units = (name: string) => page.locator(`label:text-is('${name}') input[name=units]`).check();
    await units("in");
    expect(await page.locator(".joints caption").textContent()).toBe("Joints as cut, in");
    expect(await page.locator(".joints tbody td").first().textContent()).toBe("0.0039");
    await units("mm");
  });

  test("has no serious fault by the accessibility engine on a phone in the dark, its lid up", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.emulateMedia({ colorScheme: "dark" });
    await page.locator(".lid input").press("End");
    expect(await faultsOn(page)).toEqual([]);
    expect(await page.evaluate<number>("document.documentElement.scrollWidth")).toBe(390);
    await page.setViewportSize({ width: 1024, height: 700 });
    await page.emulateMedia({ colorScheme: "light" });
  });

  test("without WebGL the parts are drawn on paper and the rest works", async () => {
    await page.click("#tab-gear");
    await page.evaluate(`{ const ask = HTMLCanvasElement.prototype.getContext;
      HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
        return kind.startsWith("webgl") ? null : ask.call(this, kind, ...rest);
      }; }`);
    await page.click("#tab-stand-up");
    expect(await page.locator(".standing [role=status]").textContent()).toContain("nothing in 3D here");
    expect(await page.locator(".flat svg .solid").count()).toBe(12);
    await page.click(".joints >> text=Base in back rail");
    expect(await page.locator(".joint-view svg").getAttribute("aria-label")).toContain("Base in back rail");
    expect(errors).toEqual([]);
  });
});

/** A picture once the page has drawn what it was last told. */
async function drawn(): Promise<Buffer> {
  await page.evaluate("new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)))");
  return page.locator(".stage canvas").screenshot();
}
