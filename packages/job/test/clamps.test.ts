import { defaultMachine } from "@dryfit/gcode";
import { boundsOf, rectangle } from "@dryfit/geometry";
import type { Part, Recess } from "@dryfit/joinery";
import type { Stock } from "@dryfit/nest";
import { expect, test } from "vitest";
import { withClamps } from "../src/clamps.ts";

const STOCK: Stock = {
  id: "sheet",
  material: "ply",
  size: [1220, 610],
  outline: null,
  grain: "x",
  count: null,
  price: null,
  keepOuts: [],
};
const recess = (face: "A" | "B"): Recess => ({
  kind: "recess",
  id: face,
  face,
  region: { outer: rectangle({ x: 0, y: 0 }, { x: 10, y: 10 }), holes: [] },
  depth: 5,
  purpose: "housing",
});

/** Lower left and upper right of each place that the clamp makes the parts keep clear of. */
function check(face: "A" | "B", clamp: readonly [number, number, number, number], expected: number[][]) {
  const part = { features: [recess(face)] } as unknown as Part;
  const [stock] = withClamps([STOCK], { ...defaultMachine(), clamps: [clamp] }, [part]);
  const boxes = stock!.keepOuts.map(({ outer }) => boundsOf(outer));
  expect(boxes.map(({ min, max }) => [min.x, min.y, max.x, max.y])).toEqual(expected);
}

test("a clamp is kept clear of where it stands", () => check("A", [0, 250, 30, 60], [[0, 250, 30, 310]]));
test("as much of it as stands on the sheet", () => check("A", [1200, 250, 60, 60], [[1200, 250, 1220, 310]]));
test("a clamp beside the sheet is in nobody's way", () => check("A", [1300, 0, 30, 60], []));
test("where the sheet is turned over, a clamp stands where its mirror image was cut too", () =>
  check(
    "B",
    [0, 100, 30, 60],
    [
      [0, 100, 30, 160],
      [1190, 100, 1220, 160],
      [0, 450, 30, 510],
    ],
  ));
