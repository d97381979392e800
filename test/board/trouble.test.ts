import { readFileSync } from "node:fs";
import { deflateSync } from "node:zlib";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { boardUrl, builtPage, fresh, launch, proved, typeOn, unmade } from "./browser.ts";

let browser: Browser;
beforeAll(async () => {
  await builtPage();
  browser = await launch();
}, 120_000);
afterAll(() => browser?.close());

const sample = (name: string): string =>
  readFileSync(new URL(`../../samples/${name}.yaml`, import.meta.url), "utf8");

const widthOn = (page: Page): Promise<string> =>
  page.locator('.case-sheet [data-path="inside.width"]').inputValue();

describe("bad input", () => {
  const opened = async (page: Page, name: string, buffer: Buffer): Promise<string> => {
    await page.locator("input[type=file]").setInputFiles({ name, mimeType: "text/plain", buffer });
    const notice = page.locator(".notice.refused");
    await notice.waitFor();
    return (await notice.textContent()) ?? "";
  };

  test("files of other kinds, huge files and files without text are refused, and the work stays", async () => {
    const { page } = await unmade(browser);
    await page.goto(boardUrl);
    expect(await opened(page, "photo.png", Buffer.from([137, 80]))).toContain("no file for this board");
    expect(await opened(page, "huge.yaml", Buffer.alloc(3_000_000, 32))).toContain("larger than any design");
    expect(await opened(page, "odd.yaml", Buffer.from([0xff, 0xfe, 0x00]))).toContain(
      "no text that can be read",
    );
    expect(await widthOn(page)).toBe("540");
    await page.context().close();
  });

  test("a cut link and stale saved work are told of, and the board is usable", async () => {
    const { page } = await unmade(browser);
    await page.goto(`${boardUrl}#design=broken`);
    expect(await page.locator(".notice").textContent()).toContain("cut short");
    await page.addInitScript({ content: `localStorage.setItem("dryfit.work", '{"v":0}')` });
    await page.goto("about:blank");
    await page.goto(boardUrl);
    expect(await page.locator(".notice").textContent()).toContain("put aside");
    await typeOn(page, "inside.width", "530");
    expect(await page.locator("[aria-label='Outside width, derived']").textContent()).toBe("(559.6)");
    await page.context().close();
  });

  test("a figure that cannot be is refused at its place with what is allowed", async () => {
    const { page } = await unmade(browser);
    await page.goto(boardUrl);
    await typeOn(page, "inside.width", "wide");
    expect(await page.locator(".why").textContent()).toContain("A length is wanted");
    await typeOn(page, "inside.width", "99999");
    expect(await page.locator(".why").textContent()).toContain("Allowed:");
    await page.keyboard.press("Escape");
    expect(await widthOn(page)).toBe("540");
    await page.context().close();
  });

  test("addresses that say nothing, or far too much, leave the sample on the board", async () => {
    const { page, errors } = await unmade(browser);
    await page.goto(`${boardUrl}#%00garbage&&=`);
    expect(await widthOn(page)).toBe("540");
    await page.goto("about:blank");
    await page.goto(`${boardUrl}#design=${"A".repeat(200_000)}`);
    expect(await page.locator(".notice").textContent()).toContain("cut short");
    expect(await widthOn(page)).toBe("540");
    // Ten million spaces, packed into ten thousand bytes.
    const bomb = deflateSync(new Uint8Array(10_000_000).fill(32));
    const link = Buffer.from(bomb).toString("base64url");
    await page.goto("about:blank");
    await page.goto(`${boardUrl}#design=${link}`);
    expect(await page.locator(".notice").textContent()).toContain("cut short");
    expect(errors).toEqual([]);
    await page.context().close();
  });

  test("files dropped on the page are opened or refused like those that are chosen", async () => {
    const { page } = await unmade(browser);
    await page.goto(boardUrl);
    await page.locator(".title-block").waitFor();
    const drop = (name: string, text: string): Promise<void> =>
      page.evaluate(`{
        const carried = new DataTransfer();
        carried.items.add(new File([${JSON.stringify(text)}], ${JSON.stringify(name)}));
        dispatchEvent(new DragEvent("drop", { dataTransfer: carried, bubbles: true, cancelable: true }));
      }`);
    await drop("letter.pdf", "%PDF");
    expect(await page.locator(".notice.refused").textContent()).toContain("no file for this board");
    await drop("mine.yaml", sample("tidepool").replace("width: 540", "width: 450"));
    await page.locator(".notice").waitFor({ state: "detached" });
    expect(await widthOn(page)).toBe("450");
    await drop("torn.yaml", "name: [");
    await page.getByText("Drawn is the last design that could be drawn").waitFor();
    expect(await widthOn(page)).toBe("450");
    await page.context().close();
  });
});

describe("a worker that dies", () => {
  test("once is not noticed: another makes the same", async () => {
    const { page } = await fresh(browser);
    await page.addInitScript({ content: dying(1) });
    await page.goto(boardUrl);
    await proved(page);
    expect(await page.evaluate("deaths")).toBe(1);
    await page.context().close();
  });

  test("beside another is replaced with it: the run is made once more", async () => {
    const { page } = await fresh(browser);
    await page.addInitScript({
      content: `
        globalThis.hired = [];
        const Sound = Worker;
        Worker = class extends Sound {
          constructor(url) {
            super(url);
            hired.push(this);
          }
        };`,
    });
    await page.goto(boardUrl);
    await page.waitForFunction("hired.length === 2");
    await page.evaluate(
      'hired[1].dispatchEvent(new ErrorEvent("error", { message: "out of memory", cancelable: true }))',
    );
    await proved(page);
    expect(await page.evaluate("hired.length")).toBe(4);
    await page.context().close();
  });

  test("again and again is told of; the design is safe, and can be made once more", async () => {
    const { page } = await fresh(browser);
    await page.addInitScript({ content: dying(4) });
    await page.goto(boardUrl);
    await page.locator(".verdict.stopped").waitFor();
    expect(await page.locator(".verdict").textContent()).toContain("out of memory");
    await page.getByRole("button", { name: "try again" }).click();
    await page.waitForFunction("deaths === 4");
    await page.locator(".verdict.stopped").waitFor();
    await typeOn(page, "inside.width", "541");
    expect(await widthOn(page)).toBe("541");
    await proved(page);
    await page.context().close();
  });
});

/** Lets the first workers die of their first ask. */
function dying(most: number): string {
  return `
    globalThis.deaths = 0;
    const Sound = Worker;
    Worker = class extends Sound {
      postMessage(ask, carried) {
        if (deaths >= ${most} || !("design" in ask)) return super.postMessage(ask, carried);
        deaths++;
        setTimeout(() => this.dispatchEvent(new ErrorEvent("error", { message: "out of memory", cancelable: true })));
      }
    };`;
}
