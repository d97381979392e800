import { readFileSync } from "node:fs";
import { CUT_MM } from "@dryfit/geometry";
import { proveCuts } from "@dryfit/verify";
import { expect, test } from "vitest";
import { readInput } from "../packages/job/src/input.ts";
import { toProve } from "../packages/job/src/proving.ts";
import { travel } from "../packages/job/src/road.ts";
import { SHIPPED_MACHINE } from "../packages/job/src/shipped-shop.ts";
import { judgeRemoval } from "./outside/removal.ts";

/** A case whose corners are drawn for a small cutter, on a router that always roughs with a larger one. */
function shared() {
  const text = readFileSync(new URL("../samples/skiff.yaml", import.meta.url), "utf8");
  const design = { file: "skiff.yaml", text: text.replace(/^cutter: .*$/m, "cutter: 1/8 in") };
  const machine = { file: "router.yaml", text: SHIPPED_MACHINE.text.replace("rest: auto", "rest: always") };
  const shop = readInput({ design, machine, cutters: null, version: "0" });
  if (!("design" in shop)) throw new Error(JSON.stringify(shop));
  return toProve(
    travel(shop.design, shop.machine, shop.cutters, () => {}),
    shop,
  );
}

test("recesses that two cutters share leave, layer by layer, what shapely leaves from the same text", () => {
  const job = shared();
  const rests = job.programs.flatMap(({ file, cleared }) =>
    (cleared ?? []).filter(({ feature }) => feature.endsWith("-pocket")).map((one) => ({ file, ...one })),
  );
  // Each pocket in two programs, the larger cutter's first.
  const files = new Map<string, string[]>();
  for (const { file, part, feature } of rests) {
    const key = `${part}/${feature}`;
    files.set(key, [...(files.get(key) ?? []), file]);
  }
  expect(files.size).toBeGreaterThan(1);
  const diameterOf = (name: string) => job.programs.find(({ file }) => file === name)!.cutters[0]!.diameter;
  for (const [first, second, ...others] of files.values()) {
    expect(others).toEqual([]);
    expect(diameterOf(first!)).toBeGreaterThan(diameterOf(second!));
    expect(first! < second!).toBe(true);
  }

  const { findings, cutPartsAt } = proveCuts(job);
  expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
  const cuts = cutPartsAt("mean");
  const pocketed = new Set([...files.keys()].map((key) => key.split("/")[0]));
  const sheet = { ...job.sheets[0]!, parts: job.sheets[0]!.parts.filter(({ part }) => pocketed.has(part)) };
  for (const { id, layers } of judgeRemoval(job, sheet, cuts))
    for (const { depth, deviation, at } of layers)
      expect(deviation, `${id} at depth ${depth}, near ${at}`).toBeLessThanOrEqual(CUT_MM);
}, 180_000);
