import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { strFromU8, unzipSync } from "fflate";
import { type Browser, chromium, type Page } from "playwright-core";
import { boardPage } from "../../packages/cli/src/board-page.ts";

const dist = new URL("../../packages/drawing-board/dist/", import.meta.url);
export const boardUrl: string = new URL("board.html", dist).href;

/** The page, built where it is older than its sources; two tests that start at once build it once. */
export async function builtPage(): Promise<string> {
  const lock = new URL(".building", dist);
  mkdirSync(dist, { recursive: true });
  while (!taken(lock)) await new Promise((go) => setTimeout(go, 200));
  try {
    return await boardPage();
  } finally {
    rmSync(lock);
  }
}

/** A lock holds the number of the process that builds; one that a dead process left behind is nobody's. */
function taken(lock: URL): boolean {
  try {
    writeFileSync(lock, String(process.pid), { flag: "wx" });
    return true;
  } catch {
    try {
      process.kill(Number(readFileSync(lock, "utf8")), 0);
    } catch {
      rmSync(lock, { force: true, recursive: true });
    }
    return false;
  }
}

/**
 * Without a graphics card one is played by the processor, which costs a third of all its time. Where nothing is looked
 * at in 3D, pages are put together without it.
 */
export function launch(looks: { readonly at3D: boolean } = { at3D: false }): Promise<Browser> {
  return chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--use-angle=swiftshader",
      "--enable-unsafe-swiftshader",
      ...(looks.at3D ? [] : ["--disable-gpu-compositing"]),
      "--disable-quic",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      "--no-first-run",
    ],
  });
}

interface Fresh {
  readonly page: Page;
  readonly errors: string[];
  readonly requests: string[];
}

/** A page of its own store, and all that it said on its console or asked of a network. */
export async function fresh(
  browser: Browser,
  size: { width: number; height: number } = { width: 1440, height: 1000 },
): Promise<Fresh> {
  const context = await browser.newContext({ viewport: size, acceptDownloads: true });
  const page = await context.newPage();
  const errors: string[] = [];
  const requests: string[] = [];
  page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("request", (request) => requests.push(request.url()));
  return { page, errors, requests };
}

/** Nothing is made on the page any more: its workers hear nothing, and leave the processor to other tests. */
export async function restWorkers(page: Page): Promise<void> {
  const deaf = "Worker.prototype.postMessage = () => {};";
  await page.addInitScript({ content: deaf });
  await page.evaluate(deaf);
}

/** A fresh page on which nothing is made. */
export async function unmade(browser: Browser): Promise<Fresh> {
  const all = await fresh(browser);
  await restWorkers(all.page);
  return all;
}

export async function proved(page: Page): Promise<void> {
  await page.locator(".verdict.proved").waitFor({ timeout: 50_000 });
}

/** Types a figure on the drawing, as a person does. */
export async function typeOn(page: Page, path: string, text: string): Promise<void> {
  const field = page.locator(`.case-sheet [data-path="${path}"]`).first();
  await field.fill(text);
  await field.press("Enter");
}

/** What the zip that the page gives away holds, by file. */
export async function takenAway(page: Page): Promise<Readonly<Record<string, string>>> {
  const [download] = await Promise.all([page.waitForEvent("download"), page.click(".take-away")]);
  const zip = unzipSync(readFileSync(await download.path()));
  return Object.fromEntries(Object.entries(zip).map(([file, bytes]) => [file, strFromU8(bytes)]));
}

const engine = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What the accessibility engine calls serious or critical on the page as it is, by all its rules or by these. */
export async function faultsOn(page: Page, rules?: readonly string[]): Promise<string[]> {
  const asked = JSON.stringify({ resultTypes: ["violations"], ...(rules ? { runOnly: rules } : {}) });
  if (!(await page.evaluate<boolean>("'axe' in globalThis"))) await page.evaluate(engine);
  return page.evaluate<string[]>(
    `axe.run(${asked}).then(({ violations }) => violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .map(({ id, nodes }) => id + ": " + nodes[0].html.slice(0, 160)))`,
  );
}
