import type { Part } from "@dryfit/joinery";
import { checkLayout, type NestJob, type PlacedPart, type Stock } from "@dryfit/nest";
import { expect, test } from "vitest";
import { board, box, part, region, sheet } from "./jobs.ts";

const at = (id: string, x: number, y: number, quarters: 0 | 1 | 2 | 3 = 0): PlacedPart => ({
  part: id,
  placement: { flip: false, quarters, angle: 0, shift: { x, y } },
});

/** The one place that knows the API: the codes that a layout of these parts on one sheet earns. */
function check(
  parts: readonly Part[],
  placed: readonly PlacedPart[],
  codes: readonly string[],
  stock = sheet(500, 400),
  spacing = 10,
) {
  const job: NestJob = { parts, stocks: [stock], rules: { spacing, margin: 10 }, seed: 1 };
  const layout = {
    sheets: [{ id: "sheet-1", stock: stock as Stock, parts: placed }],
    unplaced: [],
    findings: [],
  };
  expect(checkLayout(job, layout).map((f) => `${f.code} ${f.path}`)).toEqual(codes);
}

const disc = (id: string, r: number) =>
  part(id, [
    [0, r, 1],
    [2 * r, r, 1],
  ]);
const ring = part("ring", box(200, 200), { openings: [box(160, 160, 20, 20)] });

test("boards exactly one spacing apart are sound", () =>
  check([board("a", 100, 100), board("b", 100, 100)], [at("a", 10, 10), at("b", 120, 10)], []));

test("a hair less than the spacing is told", () =>
  check(
    [board("a", 100, 100), board("b", 100, 100)],
    [at("a", 10, 10), at("b", 119.999, 10)],
    ["parts_too_close a"],
  ));

test("two boards on one place are told", () =>
  check(
    [board("a", 100, 100), board("b", 100, 100)],
    [at("a", 10, 10), at("b", 10, 10)],
    ["parts_too_close a"],
  ));

test("boards may touch where no spacing is asked", () =>
  check(
    [board("a", 100, 100), board("b", 100, 100)],
    [at("a", 10, 10), at("b", 110, 10)],
    [],
    sheet(500, 400),
    0,
  ));

test("touching is one thing, sharing wood another", () =>
  check(
    [board("a", 100, 100), board("b", 100, 100)],
    [at("a", 10, 10), at("b", 109.9, 50)],
    ["parts_too_close a"],
    sheet(500, 400),
    0,
  ));

test("a small board in the middle of a large one is told", () =>
  check(
    [board("a", 300, 300), board("b", 50, 50)],
    [at("a", 10, 10), at("b", 100, 100)],
    ["parts_too_close a"],
  ));

test("a board may lie in another's opening", () =>
  check([ring, board("b", 140, 140)], [at("ring", 10, 10), at("b", 40, 40)], []));

test("a board too near to an opening's edge is told", () =>
  check([ring, board("b", 140, 140)], [at("ring", 10, 10), at("b", 39, 40)], ["parts_too_close ring"]));

test("round parts are measured on their arcs", () => {
  const reach = 110 / Math.SQRT2;
  check([disc("a", 50), disc("b", 50)], [at("a", 10, 10), at("b", 10 + reach, 10 + reach)], []);
  check(
    [disc("a", 50), disc("b", 50)],
    [at("a", 10, 10), at("b", 9.99 + reach, 10 + reach)],
    ["parts_too_close a"],
  );
});

test("the margin is measured from the sheet's edge", () =>
  check([board("a", 100, 100)], [at("a", 9.9, 10)], ["margin_cut a"]));

test("an offcut's real outline counts", () => {
  const corner = region([
    [0, 0],
    [500, 0],
    [500, 100],
    [100, 400],
    [0, 400],
  ]);
  check([board("a", 100, 100)], [at("a", 10, 10)], [], sheet(500, 400, { outline: corner }));
  check([board("a", 100, 100)], [at("a", 390, 290)], ["margin_cut a"], sheet(500, 400, { outline: corner }));
  check([board("a", 100, 100)], [at("a", 240, 155)], ["margin_cut a"], sheet(500, 400, { outline: corner }));
});

test("a clamp is kept clear of by the spacing", () => {
  const stock = sheet(500, 400, { keepOuts: [region(box(50, 50, 200, 200))] });
  check([board("a", 180, 180)], [at("a", 10, 10)], [], stock);
  check([board("a", 180, 180)], [at("a", 13, 13)], ["keep_out_hit a"], stock);
});

test("a board across the grain is told", () =>
  check([board("a", 100, 50, "x")], [at("a", 60, 10, 1)], ["grain_turned a"]));

test("a lost board is told", () => check([board("a", 100, 50)], [], ["part_count a"]));

test("more sheets than there are, are told", () =>
  check(
    [board("a", 100, 50)],
    [at("a", 10, 10)],
    ["stock_overdrawn 500x400"],
    sheet(500, 400, { count: 0 }),
  ));
