import type { Assembly, Box3 } from "@dryfit/joinery";
import { beforeAll, expect, test } from "vitest";
import { orderFindings } from "../src/dryfit-findings.ts";
import { assemblyOrder } from "../src/dryfit-order.ts";
import { boxSolid, loadSolidKernel, type Solid, type SolidKernel, scoped } from "../src/solids.ts";
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
function ordered(
  parts: readonly string[],
  make: (keep: <T extends { delete(): void }>(s: T) => T) => Solid[],
) {
  return scoped((keep) => {
    const meshes = new Map(make(keep).map((solid, i) => [parts[i]!, meshOf(solid)]));
    const assembly: Assembly = { ...whole, joints: [] };
    return assemblyOrder(assembly, meshes);
  });
}

test("a part on top of another goes on after it, straight down", () => {
  const { order, stuck } = ordered(["base", "rail-front"], (keep) => [
    keep(boxSolid(kernel, { min: { x: 0, y: 0, z: -10 }, max: { x: 90, y: 90, z: 0 } })),
    keep(boxSolid(kernel, cube(0, 30))),
  ]);
  expect({ order, stuck }).toEqual({ order: ["base", "rail-front"], stuck: [] });
});

test("a block in a closed shell cannot be put there, and the finding names both", () => {
  const { order, stuck } = ordered(["base", "rail-front"], (keep) => [
    keep(keep(boxSolid(kernel, cube(-10, 40))).subtract(keep(boxSolid(kernel, cube(-1, 31))))),
    keep(boxSolid(kernel, cube(0, 30))),
  ]);
  expect(order).toEqual([]);
  expect([...stuck].sort()).toEqual(["base", "rail-front"]);
  expect(orderFindings({ order, stuck }, [])).toMatchObject([
    { code: "cannot_be_assembled", severity: "error" },
  ]);
});
