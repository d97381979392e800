import { CUT_MM } from "@dryfit/geometry";
import { type CutPart, type JobToProve, loadSolidKernel, proveCuts } from "@dryfit/verify";
import { beforeAll, describe, expect, test } from "vitest";
import { judgeRemoval, widest } from "./outside/removal.ts";
import { expectSameAir } from "./outside/sections.ts";
import { expectSameSteps } from "./outside/steps.ts";
import { SAMPLES, sample } from "./sample.ts";

describe.each(SAMPLES)("the programs of %s, before outside judges", (name) => {
  let job: JobToProve;
  let cuts: readonly CutPart[];
  beforeAll(() => {
    job = sample(name).job;
    cuts = proveCuts(job).cutPartsAt("mean");
  }, 120_000);

  test("are read as another reader reads them", () => {
    for (const { text } of job.programs) expectSameSteps(text);
  });

  test("leave, layer by layer, what shapely leaves from the same text", () => {
    for (const sheet of job.sheets) {
      for (const { id, moves, layers } of judgeRemoval(job, sheet, cuts)) {
        expect(moves, id).toBeGreaterThan(3);
        for (const { depth, deviation, at, areas } of layers) {
          expect(areas[0], `${id} at depth ${depth}`).toBeGreaterThan(0);
          expect(deviation, `${id} at depth ${depth}, near ${at}`).toBeLessThanOrEqual(CUT_MM);
        }
      }
    }
  });

  test("do not leave what it leaves with a cutter that is 0.04 mm thicker", () => {
    const [first] = job.sheets;
    const sheet = { ...first!, parts: first!.parts.slice(0, 1) };
    const programs = job.programs.map((program) => ({
      ...program,
      cutters: program.cutters.map((cutter) => ({ ...cutter, diameter: cutter.diameter + 0.04 })),
    }));
    const off = widest(judgeRemoval({ ...job, programs }, sheet, cuts));
    // Half of it on each side.
    expect(off).toBeGreaterThan(0.015);
    expect(off).toBeLessThan(0.05);
  });

  test("leave joints with the air that sections of them show", async () => {
    expectSameAir(await loadSolidKernel(), job.assembly, cuts);
  });
});
