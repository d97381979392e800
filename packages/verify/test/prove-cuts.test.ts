import { areaOf, CUT_MM } from "@dryfit/geometry";
import { expect, test } from "vitest";
import { proveCuts } from "../src/prove-cuts.ts";
import { plateJob } from "./plate.ts";

test("a good plate is cut as designed, and stands up as solid layers", () => {
  const proof = proveCuts(plateJob());
  expect(proof.findings).toEqual([]);
  for (const { gouge, uncut } of proof.perPart) expect(Math.max(gouge, uncut)).toBeLessThanOrEqual(CUT_MM);
  const layers = proof.cutPartsAt("mean").flatMap((part) => part.layers);
  expect(layers.length).toBeGreaterThan(1);
  for (const { solid } of layers) expect(areaOf([...solid])).toBeGreaterThan(0);
});
