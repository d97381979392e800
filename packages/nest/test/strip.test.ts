import { packBoxStrip, packStrip, problemOf, stepBudget } from "@dryfit/nest";
import { expect, test } from "vitest";
import { box } from "./jobs.ts";

type Size = readonly [number, number];

/** Boxes that may be turned, in a strip 100 wide; the shortest strip found. */
function check(sizes: readonly Size[], expected: number): void {
  const boxes = sizes.map(([l, w]) => ({
    sizes: [
      [l, w],
      [w, l],
    ] as const,
  }));
  const budget = stepBudget(200_000);
  const { length, spots } = packBoxStrip(boxes, 100, { seed: 1, budget, bound: 0 });
  expect(length).toBeCloseTo(expected, 6);
  const laid = spots.map(({ turn, x, y }, k) => {
    const [l, w] = boxes[k]!.sizes[turn as 0 | 1];
    expect([x >= 0, y >= 0, x + l <= length + 1e-6, y + w <= 100 + 1e-6]).toEqual([true, true, true, true]);
    return { x, y, l, w };
  });
  laid.forEach((a, i) => {
    for (const b of laid.slice(i + 1)) {
      const apart = a.x + a.l <= b.x || b.x + b.l <= a.x || a.y + a.w <= b.y || b.y + b.w <= a.y;
      expect(apart).toBe(true);
    }
  });
}

test("boards cut from a full strip fill it again, a pinwheel among them", () =>
  check(
    [
      [60, 40],
      [40, 60],
      [60, 40],
      [40, 60],
      [20, 20],
      [30, 100],
      [25, 50],
      [25, 25],
      [25, 25],
    ],
    155,
  ));

test("boards that cannot fill a strip are laid all the same", () =>
  check(
    [
      [70, 60],
      [70, 60],
    ],
    120,
  ));

test("a layout is there at once, before it is known where any two outlines meet, and then a shorter one", () => {
  const bent = [0, 0, 40, 0, 40, 10, 10, 10, 10, 30, 0, 30];
  const types = [{ polygon: [bent], turns: [0, Math.PI] }];
  const bin = { x0: 0, y0: 0, x1: Infinity, y1: 100, obstacles: [] };
  const problem = problemOf({ types, items: Array(9).fill(0), gap: 0, bins: [bin] });
  const lengths: number[] = [];
  const { length } = packStrip(problem, {
    seed: 1,
    budget: stepBudget(100_000),
    onProgress: (found) => {
      if (lengths.length === 0) expect(problem.tables.count).toBe(0);
      lengths.push(found.length);
    },
  });
  // Three columns of three boxes.
  expect(lengths[0]).toBe(120);
  expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
  expect(length).toBeLessThan(90);
});

test("outlines that leave no waste are put together like a jigsaw", () => {
  const triangle = [0, 0, 100, 0, 0, 100];
  const types = [
    { polygon: [triangle], turns: [0, Math.PI] },
    { polygon: [box(50, 100).flat()], turns: [0] },
  ];
  const bins = [{ x0: 0, y0: 0, x1: Infinity, y1: 100, obstacles: [] }];
  const problem = problemOf({ types, items: [0, 0, 1], gap: 0, bins });
  const { length } = packStrip(problem, { types, seed: 1, budget: stepBudget(20_000) });
  expect(length).toBeCloseTo(150, 6);
});

test("two searches that tell one another end no longer than the shorter", () => {
  const types = [{ polygon: [box(30, 20).flat()], turns: [0, Math.PI / 2] }];
  const bins = [{ x0: 0, y0: 0, x1: Infinity, y1: 70, obstacles: [] }];
  const problem = problemOf({ types, items: new Array<number>(9).fill(0), gap: 0, bins });
  const alone = packStrip(problem, { seed: 1, budget: stepBudget(60_000) });
  const told: number[] = [];
  const peer = {
    share: (length: number) => told.push(length),
    shorter: (than: number) => (alone.length < than ? alone.layout : null),
  };
  const joined = packStrip(problem, { seed: 2, budget: stepBudget(60_000), peer });
  expect(joined.length).toBeLessThanOrEqual(alone.length + 1e-9);
  expect(told.every((length, k) => k === 0 || length < told[k - 1]!)).toBe(true);
});

test("a search that begins anew tells of shorter strips only, and of the same ones each time", () => {
  const types = [
    { polygon: [[0, 0, 40, 0, 0, 40]], turns: [0, Math.PI] },
    { polygon: [box(30, 20).flat()], turns: [0, Math.PI / 2] },
  ];
  const bins = [{ x0: 0, y0: 0, x1: Infinity, y1: 70, obstacles: [] }];
  const search = (): number[] => {
    const problem = problemOf({ types, items: [0, 0, 0, 0, 0, 1, 1, 1], gap: 0, bins });
    const told: number[] = [];
    const { length } = packStrip(problem, {
      ...{ seed: 3, budget: stepBudget(200_000) },
      onProgress: (result) => told.push(result.length),
    });
    return [...told, length];
  };
  const lengths = search();
  expect(lengths.length).toBeGreaterThan(3);
  expect(lengths.slice(0, -1).every((length, k) => k === 0 || length < lengths[k - 1]!)).toBe(true);
  expect(lengths.at(-1)).toBe(lengths.at(-2));
  expect(search()).toEqual(lengths);
});

test("with no time to search, outlines stand in columns by their boxes", () => {
  const types = [
    { polygon: [[0, 0, 40, 0, 0, 40]], turns: [0, Math.PI / 2] },
    { polygon: [box(90, 20).flat()], turns: [0, Math.PI / 2] },
  ];
  const bins = [{ x0: 0, y0: 0, x1: Infinity, y1: 85, obstacles: [] }];
  const problem = problemOf({ types, items: [0, 0, 0, 1, 1], gap: 5, bins });
  const { length } = packStrip(problem, { seed: 1, budget: stepBudget(0.5) });
  // Both boards above one another, then two triangles, then one: shorter than what one look for a place finds.
  expect(length).toBeCloseTo(90 + 5 + 40 + 5 + 40, 6);
});
