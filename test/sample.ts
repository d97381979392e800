import { readFileSync } from "node:fs";
import type { JobToProve } from "@dryfit/verify";
import { readInput } from "../packages/job/src/input.ts";
import { toProve } from "../packages/job/src/proving.ts";
import { type Road, travel } from "../packages/job/src/road.ts";

export const SAMPLES = ["tidepool", "skiff", "halyard"] as const;

/** A sample on its way from the design file to written programs, and all that its proof may know. */
export function sample(name: (typeof SAMPLES)[number]): { readonly road: Road; readonly job: JobToProve } {
  const file = `samples/${name}.yaml`;
  const text = readFileSync(new URL(`../${file}`, import.meta.url), "utf8");
  const shop = readInput({ design: { file, text }, machine: null, cutters: null, version: "0" });
  if (!("design" in shop)) throw new Error(JSON.stringify(shop));
  const road = travel(shop.design, shop.machine, shop.cutters, () => {});
  return { road, job: toProve(road, shop) };
}
