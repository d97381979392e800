import { readFileSync } from "node:fs";
import { circle, difference } from "@dryfit/geometry";
import { type Assembly, readDesign, recipe } from "@dryfit/joinery";
import { type CutPart, loadSolidKernel, type SolidKernel } from "@dryfit/verify";
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
  test("in a case whose cheeks are glued up of layers", () => {
    const { assembly, cuts } = lantern();
    expectSameAir(kernel, assembly, cuts);
  });
});

/** The layered sample as a perfect service cuts it: every cut goes through. */
function lantern(): { readonly assembly: Assembly; readonly cuts: readonly CutPart[] } {
  const read = readDesign(
    readFileSync(new URL("../samples/lantern.yaml", import.meta.url), "utf8"),
    "lantern",
  );
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("\n"));
  const assembly = recipe(read.value);
  const cuts = assembly.parts.map((part): CutPart => {
    const { mean } = part.thickness;
    const holes = part.features.flatMap((f) => {
      if (f.kind === "recess") throw new Error(`${part.id} is not cut through`);
      return [{ outer: f.kind === "opening" ? f.loop : circle(f.at, f.diameter / 2), holes: [] }];
    });
    const solid = difference([{ outer: part.outline, holes: [] }], holes);
    return { part: part.id, thickness: mean, layers: [{ from: 0, to: mean, solid }] };
  });
  return { assembly, cuts };
}
