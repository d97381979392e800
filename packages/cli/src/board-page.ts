import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { readdir, readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Failure } from "./failure.ts";

/** The drawing board's page, built anew where a checkout's sources are younger than it. */
export async function boardPage(): Promise<string> {
  const packages = fileURLToPath(new URL("../../", import.meta.url));
  const page = join(packages, "drawing-board/dist/board.html");
  if (!existsSync(page) || (await youngest(packages)) > (await stat(page)).mtimeMs) build(packages);
  return readFile(page, "utf8");
}

function build(packages: string): void {
  process.stderr.write("Building the drawing board…\n");
  const { status, stderr } = spawnSync(
    "npx",
    ["-y", "pnpm@12.4.2", "--filter", "@dryfit/drawing-board", "run", "build"],
    { cwd: packages, encoding: "utf8", shell: process.platform === "win32" },
  );
  if (status !== 0) throw new Failure(`The drawing board could not be built:\n${stderr}`);
}

/** When the sources that go into the page were last changed. */
async function youngest(packages: string): Promise<number> {
  const folders = (await readdir(packages)).filter((name) => name !== "cli");
  const files = await Promise.all(
    folders.map(async (name) => {
      const src = join(packages, name, "src");
      if (!existsSync(src)) return [];
      const entries = await readdir(src, { recursive: true, withFileTypes: true });
      return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
    }),
  );
  const times = await Promise.all(files.flat().map(async (file) => (await stat(file)).mtimeMs));
  return Math.max(0, ...times);
}
