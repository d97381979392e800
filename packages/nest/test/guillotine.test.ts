import { type CutTree, cutSheet, type Piece, piecesOf, stepBudget } from "@dryfit/nest";
import fc from "fast-check";
import { expect, test } from "vitest";

type Size = readonly [number, number];

/** Cuts the sheet as the tree says, one cut after the other, and looks at every piece that falls. */
function replay(tree: CutTree, sheet: Size, pieces: readonly Piece[]): number {
  const left = pieces.map((piece) => piece.demand);
  const boards: { tree: CutTree; size: Size }[] = [{ tree, size: sheet }];
  let value = 0;
  for (let board = boards.pop(); board; board = boards.pop()) {
    const { tree: cut, size } = board;
    if ("near" in cut) {
      const along = cut.axis === "x" ? 0 : 1;
      expect(cut.at).toBeGreaterThan(0);
      expect(cut.at).toBeLessThan(size[along]);
      const sized = (length: number): Size => (along === 0 ? [length, size[1]] : [size[0], length]);
      boards.push({ tree: cut.near, size: sized(cut.at) });
      boards.push({ tree: cut.far, size: sized(size[along] - cut.at) });
    } else if (cut.piece !== null) {
      const piece = pieces[cut.piece]!;
      expect(size[0]).toBeCloseTo(piece.sizes[cut.turn]![0], 6);
      expect(size[1]).toBeCloseTo(piece.sizes[cut.turn]![1], 6);
      left[cut.piece]!--;
      value += piece.value;
    }
  }
  expect(Math.min(...left)).toBeGreaterThanOrEqual(0);
  return value;
}

function check(sizes: readonly Size[], sheet: Size, least: number, demand = 1): void {
  const pieces = sizes.map(([w, h]) => ({ sizes: [[w, h] as const], value: w * h, demand }));
  const { value, tree } = cutSheet(pieces, sheet, { seed: 1, budget: stepBudget(200_000) });
  expect(replay(tree, sheet, pieces)).toBeCloseTo(value, 6);
  expect(value).toBeGreaterThanOrEqual(least);
}

test("boards that fill a sheet come out of it whole", () =>
  check(
    [
      [600, 400],
      [600, 200],
      [400, 300],
      [400, 300],
    ],
    [1000, 600],
    600_000,
  ));

test("a board may be asked for several times, not more", () => check([[300, 200]], [1000, 600], 240_000, 4));

test("a board larger than the sheet is left", () => check([[1001, 10]], [1000, 600], 0));

test("a pinwheel has no first cut: one of its five boards is left", () => {
  const pinwheel: Size[] = [
    [6, 4],
    [4, 6],
    [6, 4],
    [4, 6],
    [2, 2],
  ];
  check(pinwheel, [10, 10], 76);
  const pieces = pinwheel.map((size) => ({ sizes: [size], value: size[0] * size[1], demand: 1 }));
  // Source: derived; every straight line across the 10 × 10 sheet meets a board of the only full packing.
  expect(cutSheet(pieces, [10, 10], { seed: 1, budget: stepBudget(200_000) }).value).toBe(76);
});

test("a board of free grain is turned where that brings more", () => {
  const pieces: Piece[] = [
    {
      sizes: [
        [300, 1000],
        [1000, 300],
      ],
      value: 1,
      demand: 2,
    },
  ];
  const { value, tree } = cutSheet(pieces, [1000, 600], { seed: 1, budget: stepBudget(10_000) });
  expect(value).toBe(2);
  expect(piecesOf(tree).map(({ turn, x, y }) => [turn, x, y])).toEqual([
    [1, 0, 0],
    [1, 0, 300],
  ]);
});

test("any boards: what is promised falls out of the sheet, cut by cut", () => {
  const side = fc.integer({ min: 5, max: 80 });
  const anyPiece = fc.record({ w: side, h: side, value: side, demand: fc.integer({ min: 1, max: 5 }) });
  fc.assert(
    fc.property(fc.array(anyPiece, { maxLength: 15 }), fc.tuple(side, side), (list, sheet) => {
      const pieces = list.map(({ w, h, value, demand }) => ({ sizes: [[w, h] as const], value, demand }));
      const { value, tree } = cutSheet(pieces, sheet, { seed: 1, budget: stepBudget(5000) });
      expect(replay(tree, sheet, pieces)).toBeCloseTo(value, 6);
    }),
    { seed: 3, numRuns: 60 },
  );
});
