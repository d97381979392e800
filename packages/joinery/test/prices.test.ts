import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { costOf, finishOf, readPrices, type Used } from "../src/prices.ts";
import { recipe } from "../src/recipe.ts";
import { sample } from "./designs.ts";

const tidepool = sample("tidepool");
const shop = readFileSync(new URL("../../../samples/shop/prices.yaml", import.meta.url), "utf8");
const sheet = { kind: "sheet", material: "birch plywood", size: [1220, 610], price: null, share: 1 } as const;

function pricesIn(text: string) {
  const read = readPrices(text, "prices.yaml");
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

function costs(text: string | null, used: Used = { sheets: [sheet], minutes: 30 }) {
  const prices = text === null ? null : pricesIn(text);
  return costOf(tidepool, used, finishOf(recipe(tidepool), prices), prices);
}

function problemsOf(text: string) {
  const read = readPrices(text, "prices.yaml");
  return read.ok ? [] : read.problems.map(({ line, column, allowed }) => [line, column, allowed]);
}

test("the sum of the lines is the whole, each line what it is times what one costs", () => {
  const cost = costs(shop)!;
  for (const { amount, each, sum } of cost.lines) expect(sum).toBeCloseTo(amount * each, 2);
  expect(cost.total).toBeCloseTo(
    cost.lines.reduce((sum, line) => sum + line.sum, 0),
    2,
  );
  expect(cost.missing).toEqual(["Sheet 1220 × 610, birch plywood"]);
});

test("a sheet's price stands beside its size, and needs no price file", () => {
  const cost = costs(null, { sheets: [{ ...sheet, price: 48.5 }], minutes: 0 })!;
  expect(cost.lines).toEqual([
    { what: "Sheet 1220 × 610, birch plywood", amount: 1, unit: "", each: 48.5, sum: 48.5 },
  ]);
  expect(cost.total).toBe(48.5);
});

test("of a sheet that several cases share, each pays its part", () => {
  const shared = [
    { ...sheet, price: 40, share: 0.25 },
    { ...sheet, price: 40, share: 0.5 },
  ];
  expect(costs(null, { sheets: shared, minutes: 0 })!.lines).toMatchObject([{ amount: 0.75, sum: 30 }]);
});

test("where nothing has a price, nothing is said of cost", () => expect(costs(null)).toBeNull());

test("of two names that fit, the longer counts", () => {
  const cost = costs("currency: EUR\nhardware: { Screw: 1, Screw 3 mm × 35 mm: 2 }\n")!;
  expect(cost.lines.map(({ what, each }) => [what, each])).toEqual([
    ["Screw 3 mm × 35 mm", 2],
    ["Screw 3 mm × 27 mm", 1],
  ]);
});

test("a price below nothing is told at its place", () =>
  expect(problemsOf("currency: EUR\nhardware:\n  Screw: -1\n")).toEqual([[3, 10, "a price, 0 or more"]]));

test("a coat without its coverage, and half a coat, are told at their places", () =>
  expect(
    problemsOf("currency: EUR\nfinish:\n  - { what: Oil, coats: 1.5, hours: 12 }\n").map(([line]) => line),
  ).toEqual([3, 3]));

test("a coat's litres are its area over what a litre covers, edges counted apart", () => {
  const oil = "{ what: Oil, coats: 2, edgeCoats: 3, squareMetresPerLitre: 16, hours: 12, perLitre: 20 }";
  const prices = pricesIn(`currency: EUR\nfinish:\n  - ${oil}\n`);
  const { faces, edges, lines, isCommon } = finishOf(recipe(tidepool), prices);
  expect(isCommon).toBe(false);
  expect(lines[0]!.area).toBeCloseTo(2 * faces + 3 * edges, 2);
  expect(lines[0]!.litres).toBeCloseTo((2 * faces + 3 * edges) / 16, 2);
  const cost = costs(`currency: EUR\nfinish:\n  - ${oil}\n`)!;
  expect(cost.lines).toMatchObject([{ what: "Oil", amount: lines[0]!.litres, unit: "l", each: 20 }]);
});

test("without a price file a case gets what is common practice, and that is told", () => {
  const { isCommon, lines } = finishOf(recipe(tidepool), null);
  expect(isCommon).toBe(true);
  expect(lines.map(({ what }) => what)).toEqual(["Sanding sealer", "Clear varnish"]);
});

test("the faces that are glued to each other take no finish", () => {
  const lantern = recipe(sample("lantern"));
  const { glued: _, ...loose } = lantern;
  const inner = lantern.parts.filter(({ id }) => /-(inner|outer)$/.test(id));
  expect(inner).toHaveLength(4);
  expect(finishOf(lantern, null).faces).toBeLessThan(finishOf(loose, null).faces);
});
