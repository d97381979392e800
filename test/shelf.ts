import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll } from "vitest";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "dryfit-shelf-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** An empty folder for the test file that asks, gone after its last test. */
export function shelf(): string {
  return folder;
}
