import {
  areaOf,
  CUT_MM,
  circle,
  difference,
  offset,
  point,
  polygon,
  type Region,
  rectangle,
  reversed,
  roundedRectangle,
} from "@dryfit/geometry";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chosenClearing } from "../src/choose-clearing.ts";
import { clearing, type Ring } from "../src/clear.ts";
import { checkEngagement } from "../src/clear-checks.ts";
import { clearingMoves } from "../src/clear-moves.ts";
import type { PlanOptions } from "../src/plan-options.ts";
import type { Move } from "../src/toolpath.ts";
import { DATA, steps, swathAt } from "./swath.ts";

const CUT = {
  descent: { top: 0, bottom: -5, most: 3, rampAngle: (3 * Math.PI) / 180 },
  safe: 5,
  radius: 3,
  slot: DATA,
  side: DATA,
  engaged: DATA,
  finishing: DATA,
  waste: "left" as const,
};

/** Everything that the cutter can reach is gone, nothing else is, and it went down as it should. */
function check(
  pocket: readonly Region[],
  radius = 3,
  stepover = 2.4,
  finish: PlanOptions["finish"] = null,
): void {
  const plan = clearing(pocket, radius, stepover, { direction: "climb", finish });
  checkMoves(clearingMoves(plan, { ...CUT, radius }, { x: 0, y: 0 }), pocket, radius);
}

/** The same of a pocket that is cleared by another method. */
function checkMethod(
  method: "raster" | "engagement",
  pocket: readonly Region[],
  by = method as string,
): void {
  for (const finish of [null, { allowance: 0.3, roughing: "conventional" as const }]) {
    const options = { direction: "climb" as const, finish, clearing: { method, engagement: Math.PI / 3 } };
    const task = { pocket, asked: pocket, grain: undefined, stepover: 2.4, options, minutes: () => 1 };
    const { plan, by: cleared } = chosenClearing(task, CUT);
    expect(cleared.method).toBe(by);
    expect(cleared.engagement).toBeLessThanOrEqual(
      method === "engagement" && by === method ? Math.PI / 3 : Math.PI,
    );
    checkMoves(clearingMoves(plan, CUT, { x: 0, y: 0 }), pocket, CUT.radius);
  }
}

function checkMoves(moves: readonly Move[], pocket: readonly Region[], radius: number): void {
  const gone = swathAt(moves, radius, CUT.descent.bottom + 1e-9);
  const reachable = offset(offset([...pocket], -radius), radius);
  expect(widest(difference(reachable, gone)), "left").toBeLessThan(CUT_MM);
  expect(widest(difference(swathAt(moves, radius, 0), [...pocket])), "gouged").toBeLessThan(CUT_MM);
  const slopes = steps(moves).map(({ from, to, path }) => {
    const length =
      path.kind === "line" ? Math.hypot(to.x - from.x, to.y - from.y) : path.radius * Math.abs(path.sweep);
    return (from.z - to.z) / length;
  });
  expect(Math.max(...slopes)).toBeLessThanOrEqual(Math.tan(CUT.descent.rampAngle) + 1e-6);
  const heights = moves.flatMap((move) => ("to" in move ? [move.to.z] : []));
  expect(Math.min(...heights)).toBe(CUT.descent.bottom);
  expect(moves[0]).toMatchObject({ kind: "rapid", to: { z: CUT.safe } });
  expect(moves.at(-1)).toMatchObject({ kind: "rapid", to: { z: CUT.safe } });
  expect(steps(moves).every(({ kind, from, to }) => kind !== "rapid" || (from.z === 5 && to.z === 5))).toBe(
    true,
  );
}

/** The widest place of what is left, as far as it matters: twice the offset that makes it vanish. */
function widest(regions: readonly Region[]): number {
  return offset([...regions], -CUT_MM / 2).length === 0 ? 0 : Math.sqrt(areaOf([...regions]));
}

const solid = (outer: Region["outer"]): Region[] => [{ outer, holes: [] }];

describe("a cleared pocket", () => {
  test("housing a hair wider than the cutter", () =>
    check(solid(roundedRectangle(point(10, 10), point(17.2, 340), 3))));
  test("mortise with sharp corners", () => check(solid(rectangle(point(0, 0), point(60, 40)))));
  test("corner radius of exactly the cutter", () =>
    check(solid(roundedRectangle(point(0, 0), point(50, 30), 3))));
  test("wall left for a finishing pass", () =>
    check(solid(roundedRectangle(point(0, 0), point(50, 30), 5)), 3, 2.4, {
      allowance: 0.3,
      roughing: "conventional",
    }));
  test("round counterbore", () => check(solid(circle(point(40, 40), 20))));
  test("ring round an island", () =>
    check([
      {
        outer: rectangle(point(0, 0), point(120, 90)),
        holes: [reversed(rectangle(point(7, 7), point(113, 83)))],
      },
    ]));
  test("slot as wide as the cutter", () => check(solid(roundedRectangle(point(0, 0), point(80, 6), 2.9999))));
  test("two rooms and a neck that the cutter cannot pass", () =>
    check(
      solid(
        polygon([
          point(0, 0),
          point(30, 0),
          point(30, 12),
          point(50, 12),
          point(50, 0),
          point(80, 0),
          point(80, 30),
          point(50, 30),
          point(50, 17),
          point(30, 17),
          point(30, 30),
          point(0, 30),
        ]),
      ),
    ));
  test("any round-cornered pocket, with any stepover up to the diameter", () => {
    const size = fc.double({ min: 6.1, max: 90, noNaN: true });
    fc.assert(
      fc.property(
        size,
        size,
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.double({ min: 1, max: 6, noNaN: true }),
        (w, h, r, stepover) => check(solid(roundedRectangle(point(0, 0), point(w, h), r)), 3, stepover),
      ),
      { seed: 7, numRuns: 25 },
    );
  });
  test("any star, where corners are sharp and necks narrow", () => {
    const radii = fc.array(fc.double({ min: 12, max: 45, noNaN: true }), { minLength: 5, maxLength: 9 });
    fc.assert(
      fc.property(radii, (list) => {
        const corners = list.map((r, i) => {
          const angle = (2 * Math.PI * i) / list.length;
          return point(r * Math.cos(angle), r * Math.sin(angle));
        });
        check(solid(polygon(corners)));
      }),
      { seed: 7, numRuns: 12 },
    );
  });
});

describe.each(["raster", "engagement"] as const)("a pocket cleared by %s", (method) => {
  test("mortise with sharp corners", () => checkMethod(method, solid(rectangle(point(0, 0), point(60, 40)))));
  test("round counterbore", () => checkMethod(method, solid(circle(point(40, 40), 20))));
  test("a bent pocket that opens out", () =>
    checkMethod(
      method,
      solid(
        polygon([
          point(0, 0),
          point(50, 0),
          point(50, 12),
          point(20, 20),
          point(30, 45),
          point(0, 45),
          point(9, 20),
        ]),
      ),
    ));
  test("ring round an island", () =>
    checkMethod(method, [
      { outer: rectangle(point(0, 0), point(60, 50)), holes: [reversed(circle(point(30, 25), 10))] },
    ]));
});

test("a housing too narrow for an angle of engagement is cut as a contour, and one of the cutter's width as a line", () => {
  checkMethod("engagement", solid(roundedRectangle(point(0, 0), point(6.3, 80), 3)), "contour");
  checkMethod("engagement", solid(rectangle(point(0, 0), point(80, 6))), "line");
});

test("more engagement than was asked for is told", () => {
  const cleared = { method: "contour" as const, engagement: Math.PI, limit: null, minutes: 1 };
  const told = (engagement: number | null): string[] =>
    checkEngagement([{ id: "cheek/housing", cleared }], { clearing: { method: "auto", engagement } }).map(
      ({ message }) => message,
    );
  expect(told(null)).toEqual([]);
  expect(told(Math.PI)).toEqual([]);
  expect(told(Math.PI / 3)).toEqual([
    "cheek/housing: up to 180° of the cutter's rim cuts at once, 60° was asked for.",
  ]);
});

test("raster lines run along the grain where it is asked for", () => {
  const pocket = solid(rectangle(point(0, 0), point(60, 40)));
  const options = {
    direction: "climb" as const,
    finish: null,
    clearing: { method: "raster" as const, engagement: null },
  };
  const grain = { x: 0, y: 1 };
  const { plan } = chosenClearing(
    { pocket, asked: pocket, grain, stepover: 2.4, options, minutes: () => 1 },
    CUT,
  );
  const lines = steps(clearingMoves(plan, CUT, { x: 0, y: 0 })).filter(
    ({ kind, from, to }) => kind === "line" && from.z === -5 && to.z === -5,
  );
  const long = lines.filter(({ from, to }) => Math.hypot(to.x - from.x, to.y - from.y) > 30);
  expect(long.filter(({ from, to }) => Math.abs(from.x - to.x) < 1e-9).length).toBeGreaterThan(18);
});

test("the wall pass is the pocket's own contour: arcs stay arcs", () => {
  const { rings } = clearing(solid(roundedRectangle(point(0, 0), point(60, 40), 8)), 3, 2.4);
  const wall = rings[0]!.tracks[0]!;
  expect(wall.map(({ kind }) => kind).sort()).toEqual([
    "arc",
    "arc",
    "arc",
    "arc",
    "line",
    "line",
    "line",
    "line",
  ]);
  for (const s of wall) if (s.kind === "arc") expect(s.radius).toBeCloseTo(5, 6);
});

test("a slot as wide as the cutter is one line", () => {
  const { rings, slots } = clearing(solid(rectangle(point(0, 0), point(80, 6))), 3, 2.4);
  expect(rings).toEqual([]);
  expect(slots).toHaveLength(1);
  const [line] = slots[0]!;
  expect([line!.from, line!.to].map(({ x }) => x).sort((a, b) => a - b)).toEqual([
    expect.closeTo(3, 3),
    expect.closeTo(77, 3),
  ]);
});

test("neighbouring tracks are no further apart than the stepover, nor than the radius", () => {
  const rings = (list: readonly Ring[]): number =>
    list.reduce((sum, one) => sum + 1 + rings(one.children), 0);
  const square = solid(rectangle(point(0, 0), point(60, 60)));
  const depth = (stepover: number): number => rings(clearing(square, 3, stepover).rings);
  expect(depth(6)).toBe(depth(2.98));
  expect(depth(1)).toBeGreaterThan(depth(2.4));
});

describe("a rebate that is open to one side", () => {
  /** Along the edge y = 0, run out by the cutter's radius and a little. */
  const rebate = (width: number): { asked: Region[]; pocket: Region[] } => ({
    asked: solid(rectangle(point(0, 0), point(200, width))),
    pocket: solid(rectangle(point(-3.2, -3.2), point(203.2, width))),
  });
  const cleared = (width: number, most: number) => {
    const { asked, pocket } = rebate(width);
    const options = { direction: "climb", finish: null } as const;
    const plan = clearing(pocket, 3, 2.4, options, asked);
    const moves = clearingMoves(plan, { ...CUT, descent: { ...CUT.descent, most } }, { x: 0, y: 0 });
    const gone = swathAt(moves, 3, CUT.descent.bottom + 1e-9);
    expect(widest(difference(asked, gone)), "left").toBeLessThan(CUT_MM);
    expect(widest(difference(swathAt(moves, 3, 0), pocket)), "gouged").toBeLessThan(CUT_MM);
    return { plan, moves };
  };

  test("no wider than the cutter takes one line along its wall", () => {
    const { plan } = cleared(5.5, 3);
    expect(plan.rings).toEqual([]);
    expect(plan.lines).toHaveLength(1);
    expect(plan.lines[0]!.every(({ from, to }) => from.y > 2 && to.y > 2)).toBe(true);
  });
  test("wider than the cutter is gone round", () => {
    const { plan } = cleared(6.5, 3);
    expect(plan.lines).toEqual([]);
    expect(plan.rings).toHaveLength(1);
  });
  for (const most of [5, 3, 2])
    test(`is climbed along its wall in the last of ${Math.ceil(5 / most)} passes`, () => {
      const last = steps(cleared(5.5, most).moves).findLast(
        ({ path, from, to }) => path.kind === "line" && from.z === to.z && to.z === -5,
      );
      // The wall is at y = 5.5, on the right of the way along it: to the left.
      expect(last!.to.x).toBeLessThan(last!.from.x);
    });
});
