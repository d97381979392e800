import { readFileSync } from "node:fs";
import { makeJob } from "@dryfit/job";
import { afterEach, expect, test } from "vitest";

const { sin, cos, tan, asin, acos, atan, atan2, log, exp, cbrt } = Math;
const own = { sin, cos, tan, asin, acos, atan, atan2, log, exp, cbrt };
afterEach(() => Object.assign(Math, own));

/** What another engine may answer: the neighbour below, the same, or the neighbour above, in no order. */
function lastDigits(seed: number): (value: number) => number {
  const number = new Float64Array(1);
  const bits = new BigInt64Array(number.buffer);
  let state = seed;
  return (value) => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fff_ffff;
    number[0] = value;
    if (value !== 0 && Math.abs(value) !== 1) bits[0]! += BigInt(((state >> 16) % 3) - 1);
    return number[0];
  };
}

test("an engine whose sines and arctangents end in other digits makes the same files", async () => {
  const text = readFileSync(new URL("../samples/skiff.yaml", import.meta.url), "utf8");
  const make = () =>
    makeJob({ design: { file: "skiff.yaml", text }, machine: null, cutters: null, version: "test" });
  const here = await make();
  const other = lastDigits(1);
  for (const [name, work] of Object.entries(own))
    Object.assign(Math, { [name]: (a: number, b: number) => other(work(a, b)) });
  const there = await make();
  expect(there.outcome).toBe("made");
  expect(there.files).toEqual(here.files);
}, 180_000);
