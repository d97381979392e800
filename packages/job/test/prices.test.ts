import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readInput } from "../src/input.ts";
import { costOf, readPrices } from "../src/prices.ts";
import { travel } from "../src/road.ts";

const read = (file: string): string =>
  readFileSync(new URL(`../../../samples/${file}`, import.meta.url), "utf8");

function costs(design: string, prices: string | null) {
  const shop = readInput({
    design: { file: "case.yaml", text: design },
    machine: null,
    cutters: null,
    prices: prices === null ? null : { file: "prices.yaml", text: prices },
    version: "0",
  });
  if (!("design" in shop)) throw new Error(JSON.stringify(shop));
  const road = travel(shop.design, shop.machine, shop.cutters, () => {});
  return costOf(shop.design, road, shop.prices?.value ?? null);
}

const tidepool = read("tidepool.yaml");

test("the sum of the lines is the whole, each line what it is times what one costs", () => {
  const cost = costs(tidepool, read("shop/prices.yaml"))!;
  for (const { amount, each, sum } of cost.lines) expect(sum).toBeCloseTo(amount * each, 2);
  expect(cost.total).toBeCloseTo(
    cost.lines.reduce((sum, line) => sum + line.sum, 0),
    2,
  );
  expect(cost.missing).toEqual(["Sheet 1220 × 610, birch plywood"]);
});

test("a sheet's price stands beside its size, and needs no price file", () => {
  const priced = tidepool.replace("- [1220, 610]", "- { id: large, size: [1220, 610], price: 48.5 }");
  const cost = costs(priced, null)!;
  expect(cost.lines).toEqual([
    { what: "Sheet 1220 × 610, birch plywood", amount: 1, unit: "", each: 48.5, sum: 48.5 },
  ]);
  expect(cost.total).toBe(48.5);
});

test("where nothing has a price, nothing is said of cost", () => expect(costs(tidepool, null)).toBeNull());

test("of two names that fit, the longer counts", () => {
  const cost = costs(tidepool, "currency: EUR\nhardware: { Screw: 1, Screw 3 mm × 35 mm: 2 }\n")!;
  expect(cost.lines.map(({ what, each }) => [what, each])).toEqual([
    ["Screw 3 mm × 35 mm", 2],
    ["Screw 3 mm × 27 mm", 1],
  ]);
});

test("a price below nothing is told at its place", () => {
  const found = readPrices("currency: EUR\nhardware:\n  Screw: -1\n", "prices.yaml");
  expect(found.ok ? [] : found.problems.map(({ line, column, allowed }) => [line, column, allowed])).toEqual([
    [3, 10, "a price, 0 or more"],
  ]);
});
