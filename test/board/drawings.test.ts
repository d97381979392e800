import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { makeJob, VERSION } from "@dryfit/job";
import { strFromU8, unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { boardUrl, builtPage, fresh, launch, proved, restWorkers, unmade } from "./browser.ts";

/** A case whose back rail has a vent of somebody's own drawing, which lies in a folder beside the design. */
const design = readFileSync(new URL("../../samples/tidepool.yaml", import.meta.url), "utf8").replace(
  "openings:\n",
  "openings:\n  - { id: vent, panel: rail-back, file: art/vent.svg, units: mm, from: { left: 200, floor: 60 } }\n",
);
const VENT = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30">
<path d="M10 0H50A10 15 0 0 1 50 30H10A10 15 0 0 1 10 0Z"/></svg>`;

let browser: Browser;
let page: Page;
let server: ChildProcess | null = null;
beforeAll(async () => {
  await builtPage();
  browser = await launch();
  ({ page } = await fresh(browser));
  await page.goto(boardUrl);
  await page.locator(".title-block").waitFor();
}, 120_000);
afterAll(async () => {
  server?.kill("SIGKILL");
  await browser?.close();
});

interface Given {
  readonly name: string;
  readonly text: string;
}

const open = (...files: readonly Given[]): Promise<void> =>
  page
    .locator("input[type=file]")
    .setInputFiles(
      files.map(({ name, text }) => ({ name, mimeType: "text/plain", buffer: Buffer.from(text) })),
    );

const notice = (words: RegExp): Promise<void> => page.locator(".notice").filter({ hasText: words }).waitFor();

test("a design without its drawing says which is missing, and takes it when it is dropped", async () => {
  await open({ name: "mine.yaml", text: design });
  await notice(/mine\.yaml names art\/vent\.svg, which is not on the board/);
  expect(await page.locator(".verdict").textContent()).toContain("1 thing to mend");
  expect(await page.locator("#notes").textContent()).toContain("art/vent.svg is not at hand");
  await page.evaluate(`{
    const carried = new DataTransfer();
    carried.items.add(new File([${JSON.stringify(VENT)}], "vent.svg"));
    dispatchEvent(new DragEvent("drop", { dataTransfer: carried, bubbles: true, cancelable: true }));
  }`);
  await page.locator(".verdict.mend").waitFor({ state: "detached" });
  await proved(page);
});

test("what is taken away holds the drawing, byte for byte as the command makes it", async () => {
  const [download] = await Promise.all([page.waitForEvent("download"), page.click(".take-away")]);
  const files = unzipSync(readFileSync(await download.path()));
  const made = await makeJob({
    design: { file: "mine.yaml", text: design },
    drawings: [{ file: "art/vent.svg", text: VENT }],
    machine: null,
    cutters: null,
    version: VERSION,
  });
  expect(made.outcome).toBe("made");
  expect(made.files.map(({ file }) => file)).toContain("art/vent.svg");
  for (const { file, text } of made.files)
    expect({ file, same: files[file] && strFromU8(files[file]) === text }).toEqual({ file, same: true });
});

test("the drawing is kept for the next visit, goes back and forth with the steps, and goes by link", async () => {
  // From here on it is the page alone that is tried.
  await restWorkers(page);
  await page.getByRole("button", { name: "undo" }).click();
  await page.locator(".verdict.mend").waitFor();
  await page.getByRole("button", { name: "redo" }).click();
  await page.locator(".verdict.mend").waitFor({ state: "detached" });
  await page.waitForFunction('localStorage.getItem("dryfit.work")?.includes("M10 0H50")');
  await page.reload();
  await page.locator(".title-block").waitFor();
  expect(await page.locator(".verdict.mend").count()).toBe(0);
  const link = page.url();
  const other = await unmade(browser);
  await other.page.goto(link);
  await other.page.locator(".title-block").waitFor();
  expect(await other.page.locator(".verdict.mend").count()).toBe(0);
  await other.page.context().close();
});

test("a link that would be too long with the drawing says so and carries the design alone", async () => {
  let seed = 1;
  const noise = Array.from({ length: 30_000 }, () => {
    seed = (seed * 48_271) % 2_147_483_647;
    return (seed % 36).toString(36);
  }).join("");
  await open(
    { name: "vent.svg", text: VENT.replace("<path", `<!-- ${noise} --><path`) },
    { name: "mine.yaml", text: design },
  );
  await page.locator(".verdict.mend").waitFor({ state: "detached" });
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.getByRole("button", { name: "copy link" }).click();
  await notice(/too long with art\/vent\.svg|does not let the page copy/);
  await page.waitForFunction("location.hash.length < 16000 && location.hash.length > 500");
});

test("a drawing that no place of the design names is told of, and the work stays", async () => {
  await open({ name: "stray.svg", text: VENT });
  await notice(/stray\.svg is in no place of mine\.yaml/);
  expect(await page.locator(".verdict.mend").count()).toBe(0);
});

test("dryfit board hands over the drawings beside the design", async () => {
  const folder = mkdtempSync(join(tmpdir(), "dryfit-drawings-"));
  mkdirSync(join(folder, "art"));
  writeFileSync(join(folder, "mine.yaml"), design);
  writeFileSync(join(folder, "art/vent.svg"), VENT);
  const dev = fileURLToPath(new URL("../../packages/cli/bin/dev.mjs", import.meta.url));
  server = spawn(process.execPath, [dev, "board", join(folder, "mine.yaml")], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const address = await new Promise<string>((found) => {
    let said = "";
    server!.stdout!.on("data", (chunk: Buffer) => {
      said += chunk;
      const told = /http:\/\/\S+/.exec(said);
      if (told) found(told[0]);
    });
  });
  const served = await unmade(browser);
  await served.page.goto(address);
  await served.page.locator(".title-block").waitFor();
  expect(await served.page.locator(".name [data-path=name]").inputValue()).toBe("tidepool");
  expect(await served.page.locator(".verdict.mend").count()).toBe(0);
  await served.page.context().close();
}, 180_000);
