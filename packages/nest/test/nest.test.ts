import type { Part } from "@dryfit/joinery";
import { checkLayout, type Layout, type NestJob, nest } from "@dryfit/nest";
import { expect, test } from "vitest";
import { board, box, part, pedalCase, region, sheet } from "./jobs.ts";

const RULES = { spacing: 10, margin: 10 };

function job(parts: readonly Part[], stocks = [sheet(1220, 610)]): NestJob {
  return { parts, stocks, rules: RULES, seed: 1 };
}

/** The one place that knows the API: how many sheets, and which codes are found. */
function check(asked: NestJob, sheets: number, codes: readonly string[] = []): Layout {
  const layout = nest(asked);
  expect(checkLayout(asked, layout)).toEqual([]);
  expect(layout.findings.map((f) => `${f.code} ${f.path}`)).toEqual(codes);
  expect(layout.sheets.length).toBe(sheets);
  expect(nest(asked)).toEqual(layout);
  return layout;
}

test("the parts of a pedal case lie on one sheet", () => check(job(pedalCase()), 1));

test("two cases need two sheets", () => check(job([...pedalCase("a-"), ...pedalCase("b-")]), 2));

test("a board as large as the sheet less its margins fits", () => check(job([board("b", 1200, 590)]), 1));

test("a board of free grain is turned to fit", () => check(job([board("b", 590, 1200)]), 1));

test("a board larger than the sheet is named", () =>
  check(job([board("b", 1200.1, 590)]), 0, ["part_larger_than_sheet b"]));

test("a board that fits only across the grain is named", () =>
  check(job([board("b", 590, 1200, "x")]), 0, ["contradictory_grain b"]));

test("a sheet whose grain runs the other way takes the board turned", () => {
  const layout = check(job([board("b", 590, 1200, "x")], [sheet(1220, 610, { grain: "y" })]), 1);
  expect(layout.sheets[0]!.parts[0]!.placement.quarters % 2).toBe(1);
});

test("when the sheets are used up, the parts left over are named", () =>
  check(job([board("a", 1000, 500), board("b", 1000, 500)], [sheet(1220, 610, { count: 1 })]), 1, [
    "no_stock_left b",
  ]));

test("an outline without area is named", () =>
  check(
    job([
      part("flat", [
        [0, 0],
        [10, 0],
        [20, 0],
      ]),
    ]),
    0,
    ["zero_area_outline flat"],
  ));

test("an outline that crosses itself is named", () =>
  check(
    job([
      part("bow", [
        [0, 0],
        [100, 100],
        [100, 0],
        [0, 90],
      ]),
    ]),
    0,
    ["self_crossing_outline bow"],
  ));

test("a cheek whose two feet stand on one line crosses itself nowhere", () =>
  check(
    job([
      // Found by chance: extended, the back foot's underside passes the front foot's corner as near as rounding goes.
      part("cheek", [
        [0, 0],
        [35, 1.8502632510160097],
        [52, 18],
        [165, 18],
        [166.67399999999998, 8.811165059995496],
        [186.514, 9.86],
        [186.514, 108],
        [0, 108],
      ]),
    ]),
    1,
    [],
  ));

test("two parts of one name are told", () =>
  check(job([board("b", 100, 100), board("b", 100, 100)]), 1, ["part_named_twice b"]));

test("a board that clamps leave no room for is named, and the search ends", () =>
  check(job([board("b", 600, 500)], [sheet(1220, 610, { keepOuts: [region(box(900, 500, 160, 60))] })]), 0, [
    "no_place_found b",
  ]));

test("an offcut of odd outline takes what its boxes would not tell", () => {
  const corner = region([
    [0, 0],
    [500, 0],
    [0, 400],
  ]);
  check(job([board("b", 150, 150)], [sheet(500, 400, { outline: corner, count: 1 })]), 1);
});

test("nothing lies on a clamp", () =>
  check(job([board("b", 600, 500)], [sheet(1220, 610, { keepOuts: [region(box(100, 100, 400, 300))] })]), 1));

test("the cheaper of two sheets is taken", () => {
  const stocks = [sheet(1220, 610, { price: 40 }), sheet(1525, 1525, { price: 30 })];
  expect(check(job([board("b", 300, 200)], stocks), 1).sheets[0]!.stock.id).toBe("1525x1525");
});
