import type { Assembly, Box3 } from "@dryfit/joinery";
import { beforeAll, expect, test } from "vitest";
import { orderFindings } from "../src/dryfit-findings.ts";
import { assemblyOrder } from "../src/dryfit-order.ts";
import {
  blockOf,
  loadSolidKernel,
  type Scope,
  type SolidKernel,
  scoped,
  type Wood,
  without,
} from "../src/solids.ts";
import { meshOf } from "../src/solids-mesh.ts";
import { assemblyOf, handMade } from "./dryfit-case.ts";

let kernel: SolidKernel;
beforeAll(async () => {
  kernel = await loadSolidKernel();
});

const whole = assemblyOf(handMade());

function cube(from: number, to: number): Box3 {
  return { min: { x: from, y: from, z: from }, max: { x: to, y: to, z: to } };
}

/** Loose parts, named as parts of the hand-made case are. */
function ordered(parts: readonly string[], make: (scope: Scope) => Wood[]) {
  return scoped(kernel, (scope) => {
    const meshes = new Map(make(scope).map((wood, i) => [parts[i]!, meshOf(scope, wood)]));
    const assembly: Assembly = { ...whole, joints: [] };
    return assemblyOrder(assembly, meshes);
  });
}

test("a part on top of another goes on after it, straight down", () => {
  const { order, ways, stuck } = ordered(["base", "rail-front"], (scope) => [
    blockOf(scope, { min: { x: 0, y: 0, z: -10 }, max: { x: 90, y: 90, z: 0 } }),
    blockOf(scope, cube(0, 30)),
  ]);
  expect({ order, ways, stuck }).toEqual({
    order: ["base", "rail-front"],
    ways: { "rail-front": "+z" },
    stuck: [],
  });
});

test("a block in a closed shell cannot be put there, and the finding names both", () => {
  const { order, ways, stuck } = ordered(["base", "rail-front"], (scope) => [
    without(scope, blockOf(scope, cube(-10, 40)), cube(-1, 31)),
    blockOf(scope, cube(0, 30)),
  ]);
  expect(order).toEqual([]);
  expect([...stuck].sort()).toEqual(["base", "rail-front"]);
  expect(orderFindings({ order, ways, stuck }, [])).toMatchObject([
    { code: "cannot_be_assembled", severity: "error" },
  ]);
});
