#!/usr/bin/env node
// Runs the command from the sources of a checkout, without a build; installs first where nothing is installed yet,
// or where the lock file is newer than what is.
import { spawnSync } from "node:child_process";
import { statSync, utimesSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = new URL("../../../", import.meta.url);
const installed = fileURLToPath(new URL("node_modules/.modules.yaml", root));
const changed = (path) => statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;

if (changed(installed) < changed(fileURLToPath(new URL("pnpm-lock.yaml", root)))) {
  const { status } = spawnSync("npx", ["-y", "pnpm@12.4.2", "install", "--silent"], {
    cwd: fileURLToPath(root),
    stdio: ["ignore", "ignore", "inherit"],
    shell: process.platform === "win32",
  });
  if (status !== 0) process.exit(status ?? 2);
  // An install that found nothing to do leaves its mark as it was.
  utimesSync(installed, new Date(), new Date());
}
const { register } = await import("tsx/esm/api");
register();
await import("../src/main.ts");
