import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { copyFileSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { builtPage, fresh, launch, proved, typeOn } from "./browser.ts";

const dev = fileURLToPath(new URL("../../packages/cli/bin/dev.mjs", import.meta.url));
const design = join(mkdtempSync(join(tmpdir(), "dryfit-board-")), "mine.yaml");

let browser: Browser;
let server: ChildProcess;
let address: string;

beforeAll(async () => {
  await builtPage();
  browser = await launch();
  copyFileSync(fileURLToPath(new URL("../../samples/tidepool.yaml", import.meta.url)), design);
  server = spawn(process.execPath, [dev, "board", design], { stdio: ["ignore", "pipe", "inherit"] });
  address = await new Promise<string>((found, missing) => {
    let said = "";
    server.stdout!.on("data", (chunk: Buffer) => {
      said += chunk;
      const told = /http:\/\/\S+/.exec(said);
      if (told) found(told[0]);
    });
    server.once("exit", () => missing(new Error(`dryfit board ended: ${said}`)));
  });
}, 180_000);
afterAll(async () => {
  server?.kill("SIGKILL");
  await browser?.close();
});

test("what is changed on the board is saved into the file, comments and order kept; Ctrl-S will do", async () => {
  const before = readFileSync(design, "utf8");
  const { page, errors, requests } = await fresh(browser);
  await page.goto(address);
  await typeOn(page, "inside.width", "500");
  await page.keyboard.press("Control+s");
  await page.getByText("Saved to mine.yaml.").waitFor();
  expect(readFileSync(design, "utf8")).toBe(before.replace("width: 540", "width: 500"));
  await proved(page);
  // Someone else's change is never written over.
  writeFileSync(design, before);
  await typeOn(page, "inside.width", "510");
  await page.getByRole("button", { name: "save", exact: true }).click();
  await page.getByText("was changed by another program since").waitFor();
  expect(readFileSync(design, "utf8")).toBe(before);
  // The browser itself tells of the refusal; nothing else is amiss, and nothing was asked of anyone else.
  expect(errors.filter((text) => !text.includes("409"))).toEqual([]);
  const own = new URL(address).origin;
  expect(requests.filter((url) => !/^(blob|data|about):/.test(url) && new URL(url).origin !== own)).toEqual(
    [],
  );
  await page.context().close();
});

test("other hosts, other origins and guesses are turned away", async () => {
  const { port, pathname } = new URL(address);
  const host = `127.0.0.1:${port}`;
  const origin = `http://${host}`;
  expect(await status({ path: pathname, host })).toBe(200);
  expect(await status({ path: pathname, host: `evil.example:${port}` })).toBe(403);
  expect(await status({ path: pathname, host, origin: "http://evil.example" })).toBe(403);
  expect(await status({ path: "/", host })).toBe(404);
  const put = { method: "PUT", path: `${pathname}design`, host };
  expect(await status({ ...put, origin: "http://evil.example" })).toBe(403);
  expect(await status(put)).toBe(403);
  expect(await status({ ...put, path: "/guess/design", origin })).toBe(404);
  expect(await status({ ...put, origin, body: "x".repeat(2_100_000) })).toBe(413);

  function status(ask: {
    method?: string;
    path: string;
    host: string;
    origin?: string;
    body?: string;
  }): Promise<number> {
    const headers = { host: ask.host, ...(ask.origin ? { origin: ask.origin } : {}) };
    return new Promise((answered, failed) => {
      const asked = request(
        { port, host: "127.0.0.1", path: ask.path, method: ask.method ?? "GET", headers },
        (response) => {
          response.resume();
          answered(response.statusCode!);
        },
      );
      asked.on("error", failed);
      asked.end(ask.body);
    });
  }
});

test("Ctrl-C stops it at once, though a page is open", async () => {
  const { page } = await fresh(browser);
  await page.goto(address);
  server.kill("SIGINT");
  const [code] = await once(server, "exit");
  expect(code).toBe(0);
  await page.context().close();
}, 20_000);
