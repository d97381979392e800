import { existsSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const root = new URL("../", import.meta.url);

function check(page: string) {
  const text = readFileSync(new URL(page, root), "utf8");
  const named = [...text.matchAll(/`((?:packages|test|samples)\/[\w./-]+)`/g)].map((match) => match[1]!);
  expect(named.length).toBeGreaterThan(3);
  expect(named.filter((path) => !existsSync(new URL(path, root)))).toEqual([]);
}

test("every path that the contributors' page names is there", () => check("DEVELOPERS.md"));
test("every path that the readme names is there", () => check("README.md"));
