import { boundsOf, placeCurve, placement } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { checkLayout, type Layout, type Lock, type NestJob, nest, stepBudget } from "@dryfit/nest";
import fc from "fast-check";
import { expect, test } from "vitest";
import { board, pedalCase, sheet } from "./jobs.ts";

const RULES = { spacing: 10, margin: 10 };

function lock(part: string, x: number, y: number, more: Partial<Lock> & { quarters?: 0 | 1 } = {}): Lock {
  const { quarters = 0, ...rest } = more;
  const placed = placement<"sheet", "panel">({ x, y }, { quarters });
  return { part, sheet: 1, stock: sheet(1220, 610).id, placement: placed, ...rest };
}

function job(parts: readonly Part[], locks: readonly Lock[], stocks = [sheet(1220, 610)]): NestJob {
  return { parts, stocks, rules: RULES, seed: 1, locks };
}

/** The one place that knows the API: where the sheets' parts lie, and what is found. */
function check(
  asked: NestJob,
  sheets: readonly (readonly string[])[],
  codes: readonly string[] = [],
): Layout {
  const layout = nest(asked, { budget: stepBudget(500) });
  const found = [...layout.findings, ...checkLayout(asked, layout)];
  expect(found.map((f) => `${f.code} ${f.path}`)).toEqual(codes);
  expect(layout.sheets.map(({ parts }) => parts.map(({ part }) => part).sort())).toEqual(sheets);
  expect(layout.sheets.map(({ id }) => id)).toEqual(sheets.map((_, i) => `sheet-${i + 1}`));
  for (const { part, placement: at } of asked.locks ?? []) {
    const placed = layout.sheets.flatMap((each) => each.parts).find((each) => each.part === part);
    if (codes.length === 0) expect(placed!.placement).toEqual(at);
  }
  return layout;
}

test("a locked board stays where it was laid, the other lies clear of it", () =>
  check(job([board("a", 400, 300), board("b", 400, 300)], [lock("a", 500, 150)]), [["a", "b"]]));

test("a locked board in the middle of a sheet drives a large one to another sheet", () =>
  check(job([board("a", 300, 300), board("b", 900, 560)], [lock("a", 450, 150)]), [["a"], ["b"]]));

test("all parts of a case locked where they were nested lie there again", () => {
  const free = nest(job(pedalCase(), []), { budget: stepBudget(500) });
  const locks = free.sheets.flatMap(({ parts }) =>
    parts.map(({ part, placement: at }) => lock(part, 0, 0, { placement: at })),
  );
  const again = check(job(pedalCase(), locks), [
    pedalCase()
      .map(({ id }) => id)
      .sort(),
  ]);
  expect(again.sheets[0]!.parts).toEqual(free.sheets[0]!.parts);
});

test("what is locked on the second sheet lies on the second", () =>
  check(job([board("a", 1100, 500), board("b", 1100, 500)], [lock("b", 20, 20, { sheet: 2 })]), [
    ["a"],
    ["b"],
  ]));

test("one sheet is enough: a lock on the third says so", () =>
  check(job([board("a", 300, 300)], [lock("a", 20, 20, { sheet: 3 })]), [["a"]], ["locked_sheet_moved a"]));

test("a lock on a sheet that nobody has is told of, and the part nested", () =>
  check(
    job([board("a", 300, 300)], [lock("a", 20, 20, { stock: "gone" })]),
    [["a"]],
    ["locked_stock_missing a"],
  ));

test("a board locked over the sheet's edge is found", () =>
  check(job([board("a", 300, 300)], [lock("a", 1000, 20)]), [["a"]], ["margin_cut a"]));

test("a board locked in another is found, and the rest keeps clear of both", () =>
  check(
    job(
      [board("a", 300, 300), board("b", 300, 300), board("c", 300, 300)],
      [lock("a", 20, 20), lock("b", 200, 20)],
    ),
    [["a", "b", "c"]],
    ["parts_too_close a"],
  ));

test("a board locked across the grain is found", () =>
  check(
    job([board("a", 300, 200, "x")], [lock("a", 400, 20, { quarters: 1 })]),
    [["a"]],
    ["grain_turned a"],
  ));

test("a single sheet with a locked board is used up by it", () =>
  check(
    job(
      [board("a", 300, 300), board("b", 900, 560)],
      [lock("a", 450, 150)],
      [sheet(1220, 610, { count: 1 })],
    ),
    [["a"]],
    ["no_stock_left b"],
  ));

test("wherever a board is locked soundly, nothing is found", () => {
  fc.assert(
    fc.property(fc.integer({ min: 10, max: 1220 - 310 }), fc.integer({ min: 10, max: 610 - 210 }), (x, y) => {
      const parts = [board("a", 300, 200), ...pedalCase()];
      const asked = job(parts, [lock("a", x, y)]);
      const layout = nest(asked, { budget: stepBudget(50) });
      expect([...layout.findings, ...checkLayout(asked, layout)]).toEqual([]);
      const { placement: at } = layout.sheets.flatMap((each) => each.parts).find(({ part }) => part === "a")!;
      expect(boundsOf(placeCurve(at, parts[0]!.outline)).min).toEqual({ x, y });
    }),
    { numRuns: 12 },
  );
});
