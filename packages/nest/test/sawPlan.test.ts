import {
  type Blank,
  type Board,
  type SawJob,
  type SawPlan,
  type SawSheet,
  sawPlan,
  stepBudget,
} from "@dryfit/nest";
import fc from "fast-check";
import { expect, test } from "vitest";
import { box, region, sheet } from "./jobs.ts";

const RULES = { kerf: 2.4, trim: 10, stages: 3 };

function blank(id: string, w: number, h: number, grain: Blank["grain"] = "x"): Blank {
  return { id, material: "birch", size: [w, h], grain };
}

function job(blanks: readonly Blank[], more: Partial<SawJob> = {}): SawJob {
  return { blanks, stocks: [sheet(1220, 610)], rules: RULES, together: [], seed: 1, ...more };
}

/**
 * Saws the sheet as the list says, one cut after the other, and knows nothing of how the list came about: every cut
 * goes right across a board that is there, the blade turns a kerf to dust, and both sides measure what they should.
 */
function replay(asked: SawJob, { id, stock, cuts, blanks }: SawSheet): Map<string, Board> {
  const { kerf, trim, stages } = asked.rules;
  const [w, h] = stock.size;
  // A sheet that is its blank as it is needs no cut.
  const [whole] = cuts.length === 0 ? blanks : [];
  const first = { name: whole?.id ?? id, blank: whole?.id ?? null, x: 0, y: 0, w, h };
  const boards = new Map<string, Board>([[first.name, first]]);
  let stage = 0;
  for (const cut of cuts) {
    expect(cut.stage).toBeGreaterThanOrEqual(stage);
    expect(cut.stage).toBeLessThanOrEqual(stages);
    stage = cut.stage;
    expect(cut.grain).toBe(cut.axis === stock.grain ? "across" : "along");
    const board = boards.get(cut.board)!;
    expect(board, cut.board).toBeDefined();
    boards.delete(cut.board);
    const [low, long] = cut.axis === "x" ? [board.x, board.w] : [board.y, board.h];
    const sized = (from: number, length: number) =>
      cut.axis === "x" ? { ...board, x: from, w: length } : { ...board, y: from, h: length };
    if (cut.stage > 0) expect(cut.at - low).toBeCloseTo(cut.setting, 6);
    const beyond = low + long - (cut.at + kerf);
    for (const [part, from, length] of [
      [cut.near, low, cut.at - low],
      [cut.far, cut.at + kerf, beyond],
    ] as const) {
      if (part) {
        const { x, y, w, h } = sized(from, length);
        for (const [found, wanted] of [
          [part.x, x],
          [part.y, y],
          [part.w, w],
          [part.h, h],
        ])
          expect(found).toBeCloseTo(wanted!, 6);
        expect(boards.has(part.name)).toBe(false);
        boards.set(part.name, part);
      } else if (part === cut.far) expect(length).toBeLessThan(1e-4);
    }
  }
  for (const { id, x, y, w, h, turned } of blanks) {
    const { size, grain } = asked.blanks.find((b) => b.id === id)!;
    expect(boards.get(id)).toMatchObject({ blank: id });
    expect(boards.get(id)!.w).toBeCloseTo(w, 6);
    expect(boards.get(id)!.h).toBeCloseTo(h, 6);
    expect(w).toBeCloseTo(size[turned ? 1 : 0], 4);
    expect(h).toBeCloseTo(size[turned ? 0 : 1], 4);
    if (grain !== "free") expect(turned).toBe(grain !== stock.grain);
    expect(Math.min(x, y)).toBeGreaterThanOrEqual(trim - 1e-6);
    expect(x + w).toBeLessThanOrEqual(stock.size[0] - trim + 1e-4);
    expect(y + h).toBeLessThanOrEqual(stock.size[1] - trim + 1e-4);
  }
  return boards;
}

/** The one place that knows the API: how many sheets, and which codes are found. */
function check(asked: SawJob, sheets: number, codes: readonly string[] = []): SawPlan {
  const plan = sawPlan(asked, stepBudget(500));
  expect(sawPlan(asked, stepBudget(500))).toEqual(plan);
  for (const one of plan.sheets) replay(asked, one);
  const placed = plan.sheets.flatMap(({ blanks }) => blanks.map(({ id }) => id));
  expect([...placed, ...plan.unplaced].sort()).toEqual(asked.blanks.map(({ id }) => id).sort());
  expect(plan.findings.map(({ code, path }) => `${code} ${path}`)).toEqual(codes);
  expect(plan.sheets.length).toBe(sheets);
  return plan;
}

const CASE = [
  blank("base", 553.6, 349.6),
  blank("rail-front", 553.6, 60.8),
  blank("rail-back", 553.6, 136.8),
  blank("cheek-left", 365.6, 170.8),
  blank("cheek-right", 365.6, 170.8),
  ...[1, 2, 3].map((n) => blank(`slat-${n}`, 538, 52)),
  ...[1, 2].map((n) => blank(`bearer-${n}`, 212, 46.2)),
];
const BASE_AND_RAILS = { blanks: ["base", "rail-front", "rail-back"], axis: "x" } as const;

test("a pedal case is sawn from one sheet", () => check(job(CASE), 1));

test("base and rails come from one strip, at one setting of the fence", () => {
  const [only] = check(job(CASE, { together: [BASE_AND_RAILS] }), 1).sheets;
  const strips = only!.cuts.filter(({ stage, setting }) => stage === 1 && Math.abs(setting - 553.6) < 1e-6);
  expect(strips.length).toBe(1);
  const strip = strips[0]!.near!.name;
  const from = only!.cuts.filter(({ board }) => board === strip).map(({ near }) => near!.name);
  expect(from).toEqual(expect.arrayContaining(["base", "rail-front", "rail-back"]));
});

test("what shares a setting but fits no one strip comes from neighbouring strips of one width", () => {
  const wide = [1, 2, 3].map((n) => blank(`rail-${n}`, 500, 300));
  const together = [{ blanks: wide.map(({ id }) => id), axis: "x" as const }];
  const plan = check(job(wide, { together }), 2, ["saw_strips_apart rail-1"]);
  for (const { cuts } of plan.sheets)
    for (const { stage, setting } of cuts) if (stage === 1) expect(setting).toBe(500);
});

test("the blade's width is lost at every cut", () => {
  const two = [blank("a", 598.8, 590), blank("b", 598.8, 590)];
  check(job(two), 1);
  check(job([two[0]!, blank("b", 598.9, 590)]), 2);
  check(job([two[0]!, blank("b", 598.9, 590)], { rules: { ...RULES, kerf: 2.3 } }), 1);
});

test("a sheet with sawn edges needs no trimming", () => {
  const [only] = check(job([blank("a", 1220, 610)], { rules: { ...RULES, trim: 0 } }), 1).sheets;
  expect(only!.cuts).toEqual([]);
});

test("with two stages no length is sawn narrower again", () => {
  const plan = check(job(CASE, { rules: { ...RULES, stages: 2 } }), 2);
  expect(Math.max(...plan.sheets.flatMap(({ cuts }) => cuts.map(({ stage }) => stage)))).toBe(2);
});

test("grain decides the turn", () => {
  check(job([blank("a", 600, 100, "y")]), 0, ["contradictory_grain a"]);
  check(job([blank("a", 600, 100, "y")], { stocks: [sheet(610, 1220)] }), 1);
  const [only] = check(job([blank("a", 580, 1100, "free")]), 1).sheets;
  expect(only!.blanks[0]!.turned).toBe(true);
});

test("a blank larger than the trimmed sheet is named", () =>
  check(job([blank("a", 1200.1, 100), blank("b", 1200, 100)]), 1, ["part_larger_than_sheet a"]));

test("a blank without area is named", () => check(job([blank("a", 0, 100)]), 0, ["zero_area_outline a"]));

test("sheets that are used up are told", () =>
  check(
    job([blank("a", 1000, 500), blank("b", 1000, 400)], { stocks: [sheet(1220, 610, { count: 1 })] }),
    1,
    ["no_stock_left b"],
  ));

test("a knot is sawn around", () => {
  const knotty = [sheet(1220, 610, { keepOuts: [region(box(60, 60, 900, 200))] })];
  const [only] = check(job([blank("a", 700, 500)], { stocks: knotty }), 1).sheets;
  expect(only!.blanks[0]!.x + 700).toBeLessThanOrEqual(900);
});

test("a knot that cannot be sawn around is told", () => {
  const knotty = [sheet(1220, 610, { keepOuts: [region(box(60, 60, 600, 200))] })];
  check(job([blank("a", 1100, 500)], { stocks: knotty }), 1, ["saw_keep_out_hit a"]);
});

test("any blanks: every plan can be sawn, cut by cut", () => {
  const side = fc.double({ min: 20, max: 700, noNaN: true });
  const grain = fc.constantFrom<Blank["grain"]>("x", "y", "free");
  const anyBlanks = fc.array(fc.tuple(side, side, grain), { minLength: 1, maxLength: 14 });
  const rules = fc.record({
    kerf: fc.double({ min: 0, max: 4, noNaN: true }),
    trim: fc.double({ min: 0, max: 25, noNaN: true }),
    stages: fc.integer({ min: 2, max: 4 }),
  });
  fc.assert(
    fc.property(anyBlanks, rules, fc.constantFrom<"x" | "y">("x", "y"), (list, asked, way) => {
      const blanks = list.map(([w, h, g], k) => blank(`b${k}`, w, h, g));
      const all = job(blanks, { rules: asked, stocks: [sheet(1220, 610, { grain: way })] });
      const plan = sawPlan(all, stepBudget(60));
      for (const one of plan.sheets) replay(all, one);
      const placed = plan.sheets.flatMap((one) => one.blanks.map(({ id }) => id));
      expect([...placed, ...plan.unplaced].sort()).toEqual(blanks.map(({ id }) => id).sort());
      expect(plan.findings.map(({ path }) => path).sort()).toEqual([...plan.unplaced].sort());
    }),
    { seed: 5, numRuns: 80 },
  );
});
