import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll } from "vitest";

/**
 * Lays out an empty folder for the test file that calls it, gone after its last test. To be called by each file
 * itself: files share modules, and a hook set up by a module belongs to the first of them alone.
 */
export function emptyShelf(): () => string {
  let folder = "";
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "dryfit-shelf-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return () => folder;
}
