import { existsSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const root = new URL("../", import.meta.url);

function check(page: string, least: number) {
  const text = readFileSync(new URL(page, root), "utf8");
  const named = [...text.matchAll(/`((?:packages|test|samples)\/[\w./-]+)`/g)].map((match) => match[1]!);
  expect(named.length).toBeGreaterThanOrEqual(least);
  expect(named.filter((path) => !existsSync(new URL(path, root)))).toEqual([]);
}

test("every path that the contributors' page names is there", () => check("DEVELOPERS.md", 10));
test("every path that the readme names is there", () => check("README.md", 2));
