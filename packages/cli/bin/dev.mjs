#!/usr/bin/env node
// Runs the command from the sources of a checkout, without a build; installs first where nothing is installed yet.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

if (!existsSync(new URL("../node_modules/tsx", import.meta.url))) {
  const { status } = spawnSync("npx", ["-y", "pnpm@12.4.2", "install", "--silent"], {
    cwd: fileURLToPath(new URL("../../../", import.meta.url)),
    stdio: ["ignore", "ignore", "inherit"],
    shell: process.platform === "win32",
  });
  if (status !== 0) process.exit(status ?? 2);
}
const { register } = await import("tsx/esm/api");
register();
await import("../src/main.ts");
