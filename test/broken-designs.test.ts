import { readdirSync, readFileSync } from "node:fs";
import { makeJob } from "@dryfit/job";
import { describe, expect, test } from "vitest";

/**
 * Each file's first line says how it must be caught: the exit code, the finding's code, and its path
 * ("-" where it has none to speak of).
 */
const folder = new URL("./broken/designs/", import.meta.url);
const outcomes = { 1: "cannot", 2: "unreadable" } as const;

describe("a broken design is caught under its name", () => {
  for (const file of readdirSync(folder)) {
    test(file.replace(/-/g, " ").replace(".yaml", ""), async () => {
      const text = readFileSync(new URL(file, folder), "utf8");
      const [, exit, code, path] = /^# expect (\d) (\S+) (\S+)/.exec(text)!;
      const made = await makeJob({ design: { file, text }, machine: null, cutters: null, version: "test" });
      expect(made.outcome).toBe(outcomes[Number(exit) as 1 | 2]);
      expect(made.files).toEqual([]);
      const found = made.findings.find((finding) => finding.code === code);
      expect(made.findings.map((finding) => finding.code)).toContain(code);
      expect(found!.severity).toBe("error");
      expect(found!.wayOut ?? "").not.toBe("");
      if (path !== "-") {
        expect(made.findings.filter((f) => f.code === code).map((f) => f.path)).toContain(path);
        expect(found!.at).toMatchObject({ file, line: expect.any(Number), column: expect.any(Number) });
      }
    });
  }
});
