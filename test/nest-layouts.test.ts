import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { stepBudget } from "@dryfit/nest";
import { expect, test } from "vitest";
import { faultsOf } from "./bench/nest-faults.ts";
import type { Instance, Solution } from "./bench/nest-instance.ts";
import { solve } from "./bench/nest-solve.ts";

const shelf = new URL("data/nesting/", import.meta.url);

function instance(name: string): Instance {
  return JSON.parse(readFileSync(new URL(`${name}.json`, shelf), "utf8"));
}

/** Source: shapely, run as its own process on the instances' own polygons. */
function judge(cases: readonly { instance: Instance; result: Pick<Solution, "sheets"> }[]): string {
  const script = fileURLToPath(new URL("outside/nest_layouts.py", import.meta.url));
  const input = cases.map((one) => JSON.stringify(one)).join("\n");
  const run = spawnSync("/usr/bin/python3", [script], { input, encoding: "utf8" });
  return run.stderr + run.stdout;
}

test("every kind of instance is laid out soundly, and the same twice", () => {
  const names = readdirSync(shelf)
    .filter((file) => file.endsWith(".json"))
    .map((file) => file.replace(".json", ""));
  const cases = names.map((name) => {
    const asked = instance(name);
    const laid = (): Solution => ({ ...solve(asked, 1, stepBudget(8000), () => 0), curve: [] });
    const result = laid();
    expect(laid()).toEqual(result);
    return { instance: asked, result };
  });
  expect(cases.length).toBeGreaterThanOrEqual(9);
  expect(judge(cases)).toBe("");
});

test("the outside judge objects to what is not sound", () => {
  const asked = instance("rectguil-gcut1");
  const [first, second] = asked.items;
  const told = (placements: Solution["sheets"][number]["placements"]): string =>
    judge([{ instance: asked, result: { sheets: [{ size: [250, 250], placements }] } }]);
  const at = (id: string, x: number, y: number, rotationDeg = 0) => ({ id, rotationDeg, x, y });
  expect(told([at(first!.id, 0, 0)])).toBe("");
  expect(told([at(first!.id, 0, 0), at(second!.id, 1, 1)])).toContain("share wood");
  expect(told([at(first!.id, 200, 0)])).toContain("leaves sheet 1");
  expect(told([at(first!.id, 0, 0, 90)])).toContain("is turned by 90");
  expect(told([at(first!.id, 0, 0), at(first!.id, 0, 0)])).toContain("lies there 2 times");
});

test("items that cannot be laid are named, each with its reason", () => {
  const item = (id: string, polygon: Instance["items"][number]["polygon"], allowedRotationsDeg = [0]) => ({
    ...{ id, demand: 1, allowedRotationsDeg, polygon },
  });
  const high = [
    [0, 0],
    [10, 0],
    [10, 120],
    [0, 120],
  ] as const;
  const asked: Instance = {
    ...{ name: "odd", kind: "strip", stripWidth: 100 },
    items: [
      item("upright", high),
      item("lying", high, [90]),
      item("flat", [
        [0, 0],
        [10, 0],
        [20, 0],
      ]),
      item("bow", [
        [0, 0],
        [40, 40],
        [40, 0],
        [0, 50],
      ]),
      item("nowhere", high, []),
    ],
  };
  expect(faultsOf(asked).map((text) => text.split(":")[1]!.trim())).toEqual([
    "item upright fits no sheet in any direction it may lie in",
    "item flat encloses no area",
    "item bow crosses its own outline",
    "item nowhere may not lie in any direction",
  ]);
});
