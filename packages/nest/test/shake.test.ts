import { expect, test } from "vitest";
import { deepestOverlap, lay, type Packing, packingOf } from "../src/packing.ts";
import { problemOf } from "../src/problem.ts";
import { rngFrom } from "../src/rng.ts";
import { shake } from "../src/shake.ts";

/** Two shelves and three cleats on a board 400 × 300. */
function board(): Packing {
  const shelf = { polygon: [[0, 0, 120, 0, 120, 60, 0, 60]], turns: [0, Math.PI / 2] };
  const cleat = { polygon: [[0, 0, 50, 0, 50, 20, 0, 20]], turns: [0, Math.PI / 2] };
  const bin = { x0: 0, y0: 0, x1: 400, y1: 300, obstacles: [] };
  const problem = problemOf({ types: [shelf, cleat], items: [0, 0, 1, 1, 1], gap: 0, bins: [bin] });
  const p = packingOf(problem);
  for (let i = 0; i < p.n; i++) lay(p, i, p.shape[i]!, 10 + 70 * i, 20, 0);
  return p;
}

test("the deepest overlap is told in millimetres, whatever the sizes of the parts", () => {
  const p = board();
  lay(p, 0, p.shape[0]!, 0, 0, 0);
  lay(p, 1, p.shape[1]!, 113, 0, 0);
  for (const i of [2, 3, 4]) lay(p, i, p.shape[i]!, 60 * i, 200, 0);
  expect(deepestOverlap(p)).toBeCloseTo(7, 6);
  lay(p, 4, p.shape[4]!, 215, 200, 0);
  expect(deepestOverlap(p)).toBeCloseTo(15, 6);
  lay(p, 1, p.shape[1]!, 120, 0, 0);
  lay(p, 4, p.shape[4]!, 260, 200, 0);
  expect(deepestOverlap(p)).toBe(0);
});

test("a shake moves at most two parts, keeps all on the board, and does something most of the time", () => {
  const rng = rngFrom(7);
  let moved = 0;
  for (let k = 0; k < 200; k++) {
    const p = board();
    const before = Array.from({ length: p.n }, (_, i) => [p.x[i], p.y[i], p.shape[i]].join());
    shake(p, rng);
    const changed = before.filter((place, i) => place !== [p.x[i], p.y[i], p.shape[i]].join()).length;
    expect(changed).toBeLessThanOrEqual(2);
    if (changed > 0) moved++;
    for (let i = 0; i < p.n; i++) {
      const s = p.problem.shapes[p.shape[i]!]!;
      const inside = [p.x[i]! + s.x0 >= 0, p.x[i]! + s.x1 <= 400, p.y[i]! + s.y0 >= 0, p.y[i]! + s.y1 <= 300];
      expect(inside).toEqual([true, true, true, true]);
    }
  }
  expect(moved).toBeGreaterThan(120);
  expect(moved).toBeLessThan(200);
});
