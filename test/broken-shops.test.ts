import { readdirSync, readFileSync } from "node:fs";
import { makeJob } from "@dryfit/job";
import { describe, expect, test } from "vitest";

/**
 * Machine and cutter files for the sample, each with one slip. A file's first line says how it must be caught: the
 * exit code, the finding's code, and its path ("-" where it speaks of a part, not of the file).
 */
const folder = new URL("./broken/shops/", import.meta.url);
const outcomes = { 1: "cannot", 2: "unreadable" } as const;
const design = {
  file: "tidepool.yaml",
  text: readFileSync(new URL("../samples/tidepool.yaml", import.meta.url), "utf8"),
};

describe("a broken shop is caught under its name", () => {
  for (const file of readdirSync(folder)) {
    test(file.replace(/-/g, " ").replace(".yaml", ""), async () => {
      const text = readFileSync(new URL(file, folder), "utf8");
      const [, exit, code, path] = /^# expect (\d) (\S+) (\S+)/.exec(text)!;
      const shop = { machine: null, cutters: null, [file.split("-")[0]!]: { file, text } };
      const made = await makeJob({ design, ...shop, version: "test" });
      expect(made.outcome).toBe(outcomes[Number(exit) as 1 | 2]);
      expect(made.files).toEqual([]);
      const errors = made.findings.filter(({ severity }) => severity === "error");
      expect([...new Set(errors.map((finding) => finding.code))]).toEqual([code]);
      expect(errors.every(({ wayOut }) => (wayOut ?? "") !== "")).toBe(true);
      if (path === "-") return;
      expect(errors.map((finding) => finding.path)).toContain(path);
      expect(errors[0]!.at).toMatchObject({ file, line: expect.any(Number), column: expect.any(Number) });
    });
  }
});
