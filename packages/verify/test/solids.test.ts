import { circle, type Region, rectangle } from "@dryfit/geometry";
import type { Box3, Pose } from "@dryfit/joinery";
import { beforeAll, describe, expect, test } from "vitest";
import type { CutPart } from "../src/cut-part.ts";
import {
  blockOf,
  boxAround,
  loadSolidKernel,
  type SolidKernel,
  scoped,
  turned,
  woodOf,
} from "../src/solids.ts";
import { meshOf } from "../src/solids-mesh.ts";
import { overlapOf } from "../src/solids-overlap.ts";
import { freeTravel } from "../src/solids-travel.ts";

let kernel: SolidKernel;
beforeAll(async () => {
  kernel = await loadSolidKernel();
});

const WHOLE: Region<"panel"> = { outer: rectangle({ x: 0, y: 0 }, { x: 100, y: 50 }), holes: [] };
const DRILLED: Region<"panel"> = { ...WHOLE, holes: [clockwise(circle({ x: 20, y: 20 }, 5))] };

/** 100 × 50 × 12 with a bore of 10 through its face A, 8 deep. */
const PANEL: CutPart = {
  part: "panel",
  thickness: 12,
  layers: [
    { from: 0, to: 8, solid: [DRILLED] },
    { from: 8, to: 12, solid: [WHOLE] },
  ],
};

function clockwise(loop: Region<"panel">["outer"]): Region<"panel">["outer"] {
  const vertices = [...loop.vertices].reverse();
  return { closed: true, vertices: vertices.map((v) => ({ ...v, bulge: -v.bulge })) };
}

function box(x: readonly [number, number], y: readonly [number, number], z: readonly [number, number]): Box3 {
  return { min: { x: x[0], y: y[0], z: z[0] }, max: { x: x[1], y: y[1], z: z[1] } };
}

describe("a part as a solid", () => {
  function check(pose: Pose, expected: Box3) {
    scoped(kernel, (scope) => {
      const wood = woodOf(scope, PANEL, pose);
      const bounds = boxAround(wood.map((slab) => slab.box));
      for (const end of ["min", "max"] as const) {
        for (const axis of ["x", "y", "z"] as const)
          expect(bounds[end][axis]).toBeCloseTo(expected[end][axis], 5);
      }
      // The bore is a flattened circle: at most 0.001 off, so its area is within 0.1 %.
      expect(wood.reduce((sum, { solid }) => sum + solid.volume(), 0)).toBeCloseTo(
        100 * 50 * 12 - Math.PI * 25 * 8,
        0,
      );
    });
  }
  const origin = { x: 1, y: 2, z: 3 };

  test("lies flat with face A up", () =>
    check({ origin, x: "+x", y: "+y", into: "-z", datum: "A" }, box([1, 101], [2, 52], [-9, 3])));

  test("stands on edge with face A to the player", () =>
    check({ origin, x: "+x", y: "+z", into: "+y", datum: "A" }, box([1, 101], [2, 14], [3, 53])));

  test("keeps face B in its place where that is the datum", () =>
    check({ origin, x: "+x", y: "+z", into: "+y", datum: "B" }, box([1, 101], [-10, 2], [3, 53])));

  test("cannot be mirrored: wood has two faces", () => {
    const mirrored: Pose = { origin, x: "+x", y: "+y", into: "+z", datum: "A" };
    expect(() => scoped(kernel, (scope) => woodOf(scope, PANEL, mirrored))).toThrow(
      "pose of panel: +x +y +z mirrors the panel",
    );
  });
});

describe("wood in wood", () => {
  function check(gap: number, expected: number | null) {
    scoped(kernel, (scope) => {
      const left = blockOf(scope, box([0, 10], [0, 500], [0, 15]));
      const right = blockOf(scope, box([10 + gap, 20], [0, 500], [0, 15]));
      const volume = overlapOf(scope, left, right)?.volume ?? null;
      if (expected === null) expect(volume).toBeNull();
      else expect(volume).toBeCloseTo(expected, 3);
    });
  }
  test("is none between panels that stand apart", () => check(0.1, null));
  test("is none between faces that meet", () => check(0, null));
  test("is none between cut faces that overlap by what cutting may err", () => check(-0.019, null));
  test("is all of the overlap once it is deeper", () => check(-0.05, 0.05 * 500 * 15));
});

describe("a sliding solid", () => {
  const peg = box([4, 6], [4, 6], [0, 10]);

  function check(
    still: Box3,
    direction: "+x" | "-x" | "+z" | "-z" | "+y",
    deepest: number,
    expected: number,
  ) {
    scoped(kernel, (scope) => {
      const [moving, wall] = [blockOf(scope, peg), blockOf(scope, still)];
      const { distance } = freeTravel(meshOf(scope, moving), meshOf(scope, wall), direction, deepest);
      expect(distance).toBeCloseTo(expected, 5);
    });
  }
  test("goes until faces meet", () => check(box([9, 12], [0, 10], [0, 10]), "+x", 0, 3));
  test("goes the other way as well", () => check(box([-5, 1], [0, 10], [0, 10]), "-x", 0, 3));
  test("goes on for ever beside a wall", () => check(box([6, 12], [0, 10], [0, 10]), "+z", 0, Infinity));
  test("goes on for ever along a wall that it grazes", () =>
    check(box([5.995, 12], [0, 10], [12, 20]), "+z", 0, Infinity));
  test("is in already by so much", () => check(box([5.75, 12], [0, 10], [0, 10]), "+x", 1, -0.25));
  test("leaves out the wall behind it", () => check(box([-5, 3], [0, 10], [0, 10]), "+x", 1, Infinity));
  test("is not stopped by what it has passed", () =>
    check(box([0, 10], [0, 10], [-9, -1]), "+z", 0, Infinity));

  test("meets a slope where that comes nearest", () => {
    scoped(kernel, (scope) => {
      // A plank turned by 30° about its lower front edge, which stands 5 over the peg's top.
      const edge = { x: 0, y: 4, z: 15 };
      const plank = turned(scope, blockOf(scope, box([0, 10], [4, 44], [15, 17])), edge, 30);
      const [moving, slope] = [meshOf(scope, blockOf(scope, peg)), meshOf(scope, plank)];
      const { distance, at } = freeTravel(moving, slope, "+z", 0);
      expect(distance).toBeCloseTo(5, 4);
      expect(at!.y).toBeCloseTo(4, 4);
    });
  });
});
