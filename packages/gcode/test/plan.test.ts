import {
  circle,
  placement,
  point,
  polyline,
  type Region,
  rectangle,
  reversed,
  roundedRectangle,
  signedArea,
} from "@dryfit/geometry";
import type { Bore, Feature, Opening, Part, Recess } from "@dryfit/joinery";
import type { PlacedPart, Sheet } from "@dryfit/nest";
import { describe, expect, test } from "vitest";
import {
  type Cutter,
  cuttingData,
  defaultCutters,
  defaultMachine,
  type Operation,
  type PlanOptions,
  planSheet,
  type SheetPlan,
} from "../src/index.ts";
import { steps } from "./swath.ts";

const MACHINE = defaultMachine();
const SIX = defaultCutters().filter(({ diameter }) => diameter <= 6.05);

function part(
  id: string,
  size: readonly [number, number],
  features: readonly Feature[],
  more: Partial<Part> = {},
): Part {
  return {
    id,
    panel: "panel",
    title: id,
    material: "plywood",
    thickness: { min: 15, mean: 15, max: 15 },
    outline: rectangle(point(0, 0), point(...size)),
    features,
    roundOvers: [],
    grain: "free",
    faceNames: { A: "inside", B: "outside" },
    mating: [],
    ...more,
  };
}

const housing = (id: string, outer: Region<"panel">["outer"], more: Partial<Recess> = {}): Recess => ({
  kind: "recess",
  id,
  face: "A",
  region: { outer, holes: [] },
  depth: 6,
  purpose: "housing",
  ...more,
});
const opening = (id: string, loop: Opening["loop"]): Opening => ({ kind: "opening", id, loop, title: id });
const bore = (id: string, x: number, y: number, diameter: number, depth: number | null = null): Bore => ({
  kind: "bore",
  id,
  face: "A",
  at: point(x, y),
  diameter,
  depth,
});

function plan(
  placed: readonly (readonly [Part, number, number])[],
  options: Partial<PlanOptions> = {},
  cutters: readonly Cutter[] = SIX,
): SheetPlan {
  const sheet: Sheet = {
    id: "sheet-1",
    stock: {
      id: "sheet",
      material: "plywood",
      size: [800, 500],
      outline: null,
      grain: "x",
      count: null,
      price: null,
      keepOuts: [],
    },
    parts: placed.map(([{ id }, x, y]): PlacedPart => ({ part: id, placement: placement(point(x, y)) })),
  };
  return planSheet({
    sheet,
    parts: placed.map(([one]) => one),
    cutters,
    machine: MACHINE,
    data: (cutter, _material, cut) => cuttingData(cutter, MACHINE, "plywood", cut),
    options,
  });
}

const operations = ({ setups }: SheetPlan): Operation[] => setups.flatMap((setup) => [...setup.operations]);
const ids = (list: readonly Operation[]): string[] => list.map(({ id }) => id);

const CHEEK = part(
  "cheek",
  [300, 150],
  [
    opening("socket", circle(point(200, 100), 12)),
    housing("housing", roundedRectangle(point(40, 20), point(47.2, 120), 3)),
    bore("screw", 100, 50, 3.5),
  ],
);
const SLAT = part("slat", [200, 50], [bore("screw", 20, 25, 3.5)]);
const RAIL = part(
  "rail",
  [300, 80],
  [
    housing("groove", rectangle(point(0, 7.7), point(300, 14.9))),
    housing("rebate", rectangle(point(0, 0), point(6.8, 80)), { face: "B", purpose: "rebate" }),
  ],
  { mating: [polyline([point(0, 0), point(0, 80)])] },
);

describe("the order of a sheet", () => {
  const planned = plan([
    [CHEEK, 20, 20],
    [SLAT, 20, 300],
  ]);
  const kinds = operations(planned).map(({ kind }) => kind);
  test("has no errors", () => expect(planned.findings).toEqual([]));
  test("recesses come before openings, openings before outlines", () => {
    expect(kinds.lastIndexOf("recess")).toBeLessThan(kinds.indexOf("opening"));
    expect(kinds.lastIndexOf("opening")).toBeLessThan(kinds.indexOf("outline"));
    expect(kinds.lastIndexOf("bore")).toBeLessThan(kinds.indexOf("outline"));
  });
  test("small parts are cut free before large ones", () =>
    expect(ids(operations(planned)).filter((id) => id.endsWith("outline"))).toEqual([
      "slat/outline",
      "cheek/outline",
    ]));
  test("cutters change as seldom as may be", () => {
    const cutters = operations(planned).map(({ cutter }) => cutter);
    const changes = cutters.filter((cutter, i) => i > 0 && cutter !== cutters[i - 1]).length;
    expect(changes).toBe(new Set(cutters).size - 1);
  });
  test("same sheet, same plan", () =>
    expect(
      plan([
        [CHEEK, 20, 20],
        [SLAT, 20, 300],
      ]),
    ).toEqual(planned));
});

describe("a sheet with a two-faced part", () => {
  const planned = plan([
    [RAIL, 20, 20],
    [CHEEK, 20, 150],
    [SLAT, 400, 20],
  ]);
  const [a, b] = planned.setups;
  test("is turned over, and its pins are drilled first", () => {
    expect(planned.flip).not.toBeNull();
    expect(planned.setups.map(({ setup }) => setup)).toEqual(["A", "B"]);
    expect(a!.operations.filter(({ kind }) => kind === "pin")).toHaveLength(3);
    expect(b!.operations.filter(({ kind }) => kind === "pin")).toHaveLength(0);
  });
  test("is cut through only in the last setup, screw holes and pins apart", () => {
    expect(a!.operations.map(({ kind }) => kind)).not.toContain("outline");
    expect(a!.operations.map(({ kind }) => kind)).not.toContain("opening");
    expect(ids(b!.operations)).toContain("cheek/socket");
  });
  test("cuts face B where it lies when the sheet is turned over", () => {
    const rebate = b!.operations.find(({ id }) => id === "rail/rebate")!;
    const { flip } = planned;
    const xs = steps(rebate.moves).flatMap(({ from, to }) =>
      [from, to].map((p) => (flip!.axis === "y" ? 800 - p.x : p.x)),
    );
    const ys = steps(rebate.moves).flatMap(({ from, to }) =>
      [from, to].map((p) => (flip!.axis === "x" ? 500 - p.y : p.y)),
    );
    // The cutter's middle runs 3 mm inside the shoulder, round its ends a hair nearer, and a hair over the outline.
    expect(Math.max(...xs)).toBeCloseTo(20 + 6.8 - Math.sqrt(3 ** 2 - 0.2 ** 2), 3);
    expect(Math.min(...xs)).toBeCloseTo(20 - 0.2, 3);
    expect([Math.min(...ys), Math.max(...ys)]).toEqual([
      expect.closeTo(20 - 0.2, 3),
      expect.closeTo(100 + 0.2, 3),
    ]);
  });
  test("has no tab on the tongue", () => {
    const tabs = b!.operations.flatMap((operation) => operation.tabs).filter((tab) => tab.part === "rail");
    expect(tabs.length).toBeGreaterThanOrEqual(2);
    for (const { at } of tabs) expect(at[0]).toBeGreaterThan(20 + 7);
  });
});

test("a part that no tab can hold is cut down to a skin while face A is up", () => {
  const ring: Region<"panel"> = {
    outer: rectangle(point(0, 0), point(200, 150)),
    holes: [reversed(rectangle(point<"panel">(7, 7), point(193, 143)))],
  };
  const base = part("base", [200, 150], [housing("rebate", ring.outer, { region: ring, purpose: "rebate" })]);
  const { setups } = plan([
    [base, 400, 200],
    [RAIL, 20, 20],
  ]);
  const outline = setups[0]!.operations.find(({ id }) => id === "base/outline")!;
  expect(outline.tabs).toEqual([]);
  expect(outline.skin).toBeCloseTo(0.4, 9);
  const lowest = Math.min(...steps(outline.moves).map(({ to }) => to.z));
  expect(lowest).toBeCloseTo(-15 + 0.4, 9);
});

test("every move stays within the sheet's heights, and rapids stay above it", () => {
  const planned = plan([
    [RAIL, 20, 20],
    [CHEEK, 20, 150],
    [SLAT, 400, 20],
  ]);
  for (const { moves, kind: what } of operations(planned)) {
    const lowest = -15 - (what === "pin" ? MACHINE.pins.depth : MACHINE.bedAllowance);
    for (const move of moves) if (move.kind === "drill") expect(move.at.z).toBeCloseTo(lowest, 9);
    for (const { from, to, kind } of steps(moves)) {
      expect(Math.min(from.z, to.z)).toBeGreaterThanOrEqual(lowest - 1e-9);
      if (kind === "rapid") expect([from.z, to.z]).toEqual([MACHINE.safeHeight, MACHINE.safeHeight]);
    }
  }
});

describe("cutters", () => {
  const first = (planned: SheetPlan, id: string): Operation =>
    operations(planned).find((one) => one.id === id)!;
  test("a screw hole is drilled, a 20 mm hole is wound down", () => {
    const planned = plan([
      [part("p", [200, 100], [bore("screw", 30, 30, 3.5), bore("post", 100, 50, 11, 8)]), 20, 20],
    ]);
    expect(first(planned, "p/screw").moves.some(({ kind }) => kind === "drill")).toBe(true);
    expect(first(planned, "p/post").moves.filter(({ kind }) => kind === "arc").length).toBeGreaterThan(3);
  });
  test("a housing narrower than every cutter is refused with numbers", () => {
    const narrow = part("p", [200, 100], [housing("slit", rectangle(point(50, 20), point(52, 80)))]);
    const { findings } = plan([[narrow, 20, 20]]);
    expect(findings).toMatchObject([
      { code: "cutter_too_wide", severity: "error", path: "p/slit", numbers: { cutter: 3.175 } },
    ]);
    expect(findings[0]!.numbers.widest).toBeGreaterThanOrEqual(1.9);
    expect(findings[0]!.numbers.widest).toBeLessThanOrEqual(2);
  });
  test("sharp corners of an opening are declared with the cutter's radius", () => {
    const window = part("p", [200, 100], [opening("window", rectangle(point(50, 20), point(150, 80)))]);
    const planned = plan([[window, 20, 20]]);
    const { corners, cutter } = first(planned, "p/window");
    expect(corners.map(({ at }) => at).sort()).toEqual([
      [170, 100],
      [170, 40],
      [70, 100],
      [70, 40],
    ]);
    expect(corners.every(({ radius }) => radius === SIX.find(({ id }) => id === cutter)!.diameter / 2)).toBe(
      true,
    );
  });
  test("a wide cutter that does not pass between two parts is not taken for their outlines", () => {
    const neighbours: readonly (readonly [Part, number, number])[] = [
      [part("p", [200, 100], []), 20, 20],
      [part("q", [200, 100], []), 20, 127],
    ];
    for (const { cutter } of operations(plan(neighbours, {}, defaultCutters())))
      expect(cutter).not.toBe("up-8");
  });
  test("flutes shorter than the sheet is thick are refused", () => {
    const stubby = SIX.map((cutter) => ({ ...cutter, fluteLength: 10 }));
    expect(plan([[SLAT, 20, 20]], {}, stubby).findings.map(({ code }) => code)).toContain("flutes_too_short");
  });
});

test("climb goes clockwise round an outline, conventional counter-clockwise", () => {
  const area = (direction: PlanOptions["direction"]): number => {
    const { moves } = operations(plan([[SLAT, 20, 20]], { direction })).find(
      ({ kind }) => kind === "outline",
    )!;
    const low = steps(moves).filter(({ to }) => to.z < -15);
    return signedArea({
      closed: true,
      vertices: low.map(({ from }) => ({ x: from.x, y: from.y, bulge: 0 })),
    });
  };
  expect(area("climb")).toBeLessThan(0);
  expect(area("conventional")).toBeGreaterThan(0);
});

describe("an outline's passes", () => {
  const cutOf = (options: Partial<PlanOptions>): Operation[] =>
    operations(plan([[SLAT, 20, 20]], options)).filter(({ kind }) => kind === "outline");
  const low = ({ moves }: Operation): number => Math.min(...steps(moves).map(({ to }) => to.z));

  test("with an allowance, roughing keeps off the wall and one pass at full depth takes it", () => {
    const [outline] = cutOf({ finish: { allowance: 0.3, roughing: "conventional" } });
    const edges = steps(outline!.moves)
      .filter(({ from, to, path }) => path.kind === "line" && from.y === to.y && to.z < 0 && from.y < 20)
      .map(({ from }) => from.y);
    expect(new Set(edges.map((y) => y.toFixed(6)))).toEqual(new Set(["16.700000", "17.000000"]));
    // The wall itself is touched at full depth only, tabs apart.
    const walls = steps(outline!.moves).filter(({ from, to }) => from.y === 17 && to.y === 17);
    for (const { from } of walls) expect(from.z).toBeLessThanOrEqual(-15 + 1.5 + 1e-9);
  });
  test("a scoring pass comes first and is as shallow as asked", () => {
    const [outline] = cutOf({ score: 0.5 });
    const levels = [
      ...new Set(
        steps(outline!.moves)
          .filter(({ from, to }) => from.z === to.z && to.z < 0)
          .map(({ to }) => to.z),
      ),
    ];
    expect(Math.max(...levels)).toBe(-0.5);
  });
  test("a skin is left for the knife", () => {
    const cuts = cutOf({ hold: { kind: "skin", height: 0.3, finalPass: false } });
    expect(cuts.map(({ skin }) => skin)).toEqual([0.3]);
    expect(low(cuts[0]!)).toBeCloseTo(-14.7, 9);
  });
  test("or cut by a last pass, when everything else is done", () => {
    const cuts = cutOf({ hold: { kind: "skin", height: 0.3, finalPass: true } });
    expect(cuts.map(({ id }) => id)).toEqual(["slat/outline", "slat/outline-last"]);
    expect(cuts.map(({ skin }) => skin)).toEqual([undefined, undefined]);
    expect(low(cuts[0]!)).toBeCloseTo(-14.7, 9);
    expect(low(cuts[1]!)).toBeCloseTo(-15 - MACHINE.bedAllowance, 9);
  });
});
