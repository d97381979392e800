import { describe, expect, test } from "vitest";
import { areaOf } from "@dryfit/geometry";
import { proveCuts } from "../src/prove-cuts.ts";
import { plateJob } from "./plate.ts";

describe("the plate", () => {
  const proof = proveCuts(plateJob());
  test("is cut as designed", () => {
    expect(proof.findings).toEqual([]);
    console.log(proof.perPart, proof.cutPartsAt("mean").map(p=>p.layers.map(l=>[l.from,l.to,areaOf(l.solid), l.solid.length])));
  });
});
