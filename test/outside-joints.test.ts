import { loadSolidKernel, type SolidKernel } from "@dryfit/verify";
import { beforeAll, describe, test } from "vitest";
import { assemblyOf, cutPartsOf, type HandMade, handMade } from "../packages/verify/test/dryfit-case.ts";
import { expectSameAir } from "./outside/sections.ts";

let kernel: SolidKernel;
beforeAll(async () => {
  kernel = await loadSolidKernel();
});

describe("joints cut through by an outside library have the air that the dry fit measures", () => {
  function check(given: Partial<HandMade>) {
    const numbers = handMade(given);
    expectSameAir(kernel, assemblyOf(numbers), cutPartsOf(numbers));
  }
  test("in a case as designed", () => check({}));
  test("with more air", () => check({ side: 0.17, end: 0.63 }));
  test("where the base's tongue is thin from below", () => check({ baseTongueThickness: 6.9 }));
  test("where the base lost wood at its front shoulder", () => check({ baseShoulderCut: 0.3 }));
  test("where the groove is too shallow", () => check({ grooveDepth: 6.5 }));
});
