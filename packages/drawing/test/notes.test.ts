import fc from "fast-check";
import { expect, test } from "vitest";
import { boxOf, type Note, type PaperBox, placeNotes } from "../src/notes.ts";

const paper: PaperBox = { min: { x: 0, y: 0 }, max: { x: 200, y: 150 } };
const note = (x: number, y: number, ...lines: string[]): Note => ({ at: { x, y }, lines, size: 3 });

function only(notes: readonly Note[], strokes: Parameters<typeof placeNotes>[2] = []) {
  return placeNotes(notes, [], strokes, paper)[0]!;
}

test("with room enough, words stand on their place", () => {
  const placed = only([note(100, 75, "7.2 deep")]);
  expect(placed.middle).toEqual({ x: 100, y: 75 });
  expect(placed.leader).toBe(false);
});

test("words step aside for a line, and point back", () => {
  const placed = only(
    [note(100, 75, "7.2 deep")],
    [
      [
        { x: 0, y: 75 },
        { x: 200, y: 75 },
      ],
    ],
  );
  expect(placed.middle).not.toEqual({ x: 100, y: 75 });
  expect(placed.leader).toBe(true);
});

test("words are set on one line where three cross something", () => {
  const rails = [65, 85].map(
    (y) =>
      [
        { x: 0, y },
        { x: 200, y },
      ] as const,
  );
  const placed = only(
    [{ ...note(100, 75, "rail", "553.6 × 60.8", "face A up"), size: 7, otherwise: [["rail  553.6"]] }],
    rails,
  );
  expect(placed.lines).toEqual(["rail  553.6"]);
});

test("a name stays within its part if it can", () => {
  const home = { min: { x: 90, y: 60 }, max: { x: 130, y: 90 } };
  const placed = only(
    [{ ...note(100, 75, "slat"), home }],
    [
      [
        { x: 100, y: 70 },
        { x: 100, y: 80 },
      ],
    ],
  );
  const { min, max } = boxOf(placed, placed.middle);
  expect(min.x >= home.min.x && max.x <= home.max.x && min.y >= home.min.y && max.y <= home.max.y).toBe(true);
});

test("a few dozen notes never lie on one another, nor beyond the paper", () => {
  const spot = fc.record({ x: fc.integer({ min: 15, max: 185 }), y: fc.integer({ min: 10, max: 140 }) });
  fc.assert(
    fc.property(fc.array(spot, { maxLength: 24 }), (spots) => {
      const boxes = placeNotes(
        spots.map(({ x, y }) => note(x, y, "7.2 deep")),
        [],
        [],
        paper,
      ).map((placed) => boxOf(placed, placed.middle));
      boxes.forEach((a, i) => {
        expect(a.min.x >= 0 && a.min.y >= 0 && a.max.x <= 200 && a.max.y <= 150).toBe(true);
        for (const b of boxes.slice(i + 1))
          expect(a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y).toBe(
            false,
          );
      });
    }),
    { numRuns: 50, seed: 3 },
  );
});
