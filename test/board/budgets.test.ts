import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { makeJob } from "@dryfit/job";
import { loadSolidKernel } from "@dryfit/verify";
import type { Browser, CDPSession, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { boardUrl, builtPage, fresh, launch, proved, typeOn, unmade } from "./browser.ts";
import { stretch } from "./stretch.ts";

/*
 * Wall-clock budgets are meant for a desktop computer that has two cores to itself. Where others work on the machine
 * too, a figure is stretched by waiting that is not the page's; and a slower machine gets as much more time as it
 * takes more to start Node, which nothing of ours has a part in.
 */

/** What starting Node took on the machine for which the budgets were set, ms. Measured there, best of several. */
const NODE_STARTS_MS = 51;

let browser: Browser;
let slower = 1;
beforeAll(async () => {
  await builtPage();
  slower = slowness();
  process.stdout.write(`this machine takes ${slower.toFixed(1)} times as long as the one of the budgets\n`);
  browser = await launch();
}, 120_000);
afterAll(() => browser?.close());

/** How many times longer than there the quickest of a few starts takes here; at least 1. */
function slowness(): number {
  const times = Array.from({ length: 7 }, () => {
    const start = performance.now();
    spawnSync(process.execPath, ["-e", "0"]);
    return performance.now() - start;
  });
  return Math.max(1, Math.min(...times) / NODE_STARTS_MS);
}

/** Processor time of the page's own thread so far, ms. */
async function busy(cdp: CDPSession): Promise<{ readonly script: number; readonly all: number }> {
  const { metrics } = await cdp.send("Performance.getMetrics");
  const of = (name: string): number => 1000 * metrics.find((metric) => metric.name === name)!.value;
  return { script: of("ScriptDuration"), all: of("TaskDuration") };
}

async function watched(page: Page): Promise<CDPSession> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send("Performance.enable", { timeDomain: "threadTicks" });
  return cdp;
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

test("the first sheet is on the screen within a second, from disk", async () => {
  const before = stretch();
  const paints: number[] = [];
  const work: number[] = [];
  for (let i = 0; i < 2; i++) {
    const { page } = await fresh(browser);
    const cdp = await watched(page);
    await page.goto(boardUrl, { waitUntil: "commit" });
    const paint = 'performance.getEntriesByName("first-contentful-paint")[0]?.startTime';
    await page.waitForFunction(paint);
    paints.push(await page.evaluate<number>(paint));
    work.push((await busy(cdp)).all);
    await page.context().close();
  }
  const slow = Math.max(before, stretch());
  const paint = Math.min(...paints);
  say(`first paint ${paint.toFixed(0)} ms, ${median(work).toFixed(0)} ms of work`, slow);
  expect(median(work)).toBeLessThan(700 * slower);
  // Several processes of the browser have to take turns before anything is on the screen.
  expect(paint).toBeLessThan(1000 * slower * (slow < 1.3 ? 1 : slow * slow));
});

test("a change of one dimension redraws the drawing within a frame", async () => {
  // A run starts when its drawing is on the screen; runs of earlier changes would take the processor from the page.
  const { page } = await unmade(browser);
  const cdp = await watched(page);
  await page.goto(boardUrl);
  const before = stretch();
  // Once for practice, as nobody changes a case only once.
  for (let i = 0; i < 10; i++) await typeOn(page, "inside.width", String(500 + i));
  await page.evaluate("performance.clearMeasures()");
  const start = await busy(cdp);
  const changes = 40;
  for (let i = 0; i < changes; i++) await typeOn(page, "inside.width", String(510 + i));
  const script = ((await busy(cdp)).script - start.script) / changes;
  const redraws = await page.evaluate<number[]>(
    'performance.getEntriesByName("dryfit: redraw").map(({ duration }) => duration)',
  );
  expect(redraws.length).toBe(changes);
  const slow = Math.max(before, stretch());
  say(`redraw ${median(redraws).toFixed(1)} ms median, ${script.toFixed(1)} ms of script a change`, slow);
  // With what typing costs: filling the field, focus, keys.
  expect(script).toBeLessThan(25 * slower);
  if (slow < 1.3) expect(median(redraws)).toBeLessThan(16 * slower);
  await page.context().close();
});

describe("a case that is proved", () => {
  let page: Page;
  beforeAll(async () => {
    ({ page } = await fresh(browser));
    await page.goto(boardUrl);
    await proved(page);
  }, 60_000);

  test("everything, proof included, is there a second after a change, or no later than the command has it", async () => {
    const before = stretch();
    const proofs: number[] = [];
    // As many as somebody at work makes: an engine runs code at its best only when it has seen it several times.
    for (let i = 0; i < 10; i++) proofs.push(await change(page, String(530 - i)));
    const slow = Math.max(before, stretch());
    const command = await commandMs();
    const fast = Math.min(...proofs);
    const figures = proofs.map((ms) => ms.toFixed(0)).join(", ");
    say(
      `proved ${fast.toFixed(0)} ms after a change at best (${figures}); the command's own work, warm, in one thread: ${command.toFixed(0)} ms`,
      slow,
    );
    // A second is what we want. What always holds: two workers are no slower than the command with one thread.
    expect(fast).toBeLessThan(Math.max(PROVED_MS, command) * (slow < 1.3 ? 1 : slow));
  }, 180_000);

  test("a stale run is told of no more: the last of many changes is what is proved, and two workers are enough", async () => {
    for (const width of ["501", "502", "503", "504"]) {
      await typeOn(page, "inside.width", width);
      // Longer than the board waits for another change: each starts a run.
      await page.waitForTimeout(150);
    }
    await proved(page);
    await expect.poll(() => page.workers().length, { timeout: 10_000 }).toBeLessThanOrEqual(2);
    await page.click("#tab-papers");
    const papers = page.frameLocator("iframe");
    await papers.getByText("504", { exact: false }).first().waitFor();
    // 504 + 2 × 6.8, as explain says.
    expect(await papers.locator("body").textContent()).toContain("517.6");
  });
});

const PROVED_MS = 1000;

/** What making and proving the sample takes in this process, once it is warm, ms. */
async function commandMs(): Promise<number> {
  const file = "tidepool.yaml";
  const text = readFileSync(new URL(`../../samples/${file}`, import.meta.url), "utf8");
  const kernel = await loadSolidKernel();
  const times: number[] = [];
  for (const width of [530, 529, 528]) {
    const design = { file, text: text.replace("width: 540", `width: ${width}`) };
    const start = performance.now();
    const made = await makeJob({ design, machine: null, cutters: null, version: "0" }, () => {}, kernel);
    times.push(performance.now() - start);
    expect(made.outcome).toBe("made");
  }
  return Math.min(...times);
}

function say(figures: string, slow: number): void {
  process.stdout.write(`${figures}; work takes ${slow.toFixed(1)} times its processor time here\n`);
}

/** How long after a figure was taken the case stands proved, ms. */
async function change(page: Page, width: string): Promise<number> {
  const field = page.locator('.case-sheet [data-path="inside.width"]');
  await field.fill(width);
  await page.evaluate(`
    globalThis.taken = performance.now();
    globalThis.settled = new Promise((done) => {
      const look = () => {
        const verdict = document.querySelector(".verdict");
        if (verdict.matches(".working")) globalThis.started = true;
        if (globalThis.started && verdict.matches(".proved")) {
          observer.disconnect();
          globalThis.started = false;
          done(performance.now() - taken);
        }
      };
      const observer = new MutationObserver(look);
      observer.observe(document.querySelector(".title-block"), { subtree: true, attributes: true, childList: true });
    });
    const input = document.querySelector('.case-sheet [data-path="inside.width"]');
    input.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
  `);
  return page.evaluate<number>("settled");
}
