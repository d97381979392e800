import { readFileSync } from "node:fs";
import { boundsOf } from "@dryfit/geometry";
import { expect, test } from "vitest";
import { coupon, kerfCoupon } from "../src/coupon.ts";
import { couponTrials, kerfTrials } from "../src/coupon-trials.ts";
import type { Design } from "../src/design.ts";
import { readDesign } from "../src/read-design.ts";

function sample(name: string): Design {
  const text = readFileSync(new URL(`../../../samples/${name}.yaml`, import.meta.url), "utf8");
  const read = readDesign(text, `${name}.yaml`);
  if (!read.ok) throw new Error("the sample cannot be read");
  return read.value;
}

const tidepool = sample("tidepool");

/** How wide and long the housing of a letter is on the plate. */
function housing(id: string): readonly [number, number] {
  const plate = coupon(tidepool).parts.find((part) => part.id === "coupon-climb")!;
  const feature = plate.features.find((each) => each.id === id)!;
  if (feature.kind !== "recess") throw new Error("not a recess");
  const { min, max } = boundsOf(feature.region.outer);
  return [max.x - min.x, max.y - min.y];
}

test("widths go up by 0.05 mm from a tongue without air", () => {
  const sizes = couponTrials(tidepool).widths.map(({ size }) => size);
  expect(sizes).toEqual([7, 7.05, 7.1, 7.15, 7.2, 7.25, 7.3, 7.35]);
});

test.each(["tidepool", "skiff", "halyard"])("%s's own width and depth are among what is tried", (name) => {
  const { joint } = sample(name);
  const { widths, depths } = couponTrials(sample(name));
  expect(widths.find(({ now }) => now)!.clearance).toBeCloseTo(joint.clearance.side, 3);
  expect(depths.find(({ now }) => now)!.clearance).toBeCloseTo(joint.clearance.end, 3);
});

test("no width is less than the tongue's and no depth less than its length", () => {
  const snug = { ...tidepool.joint, clearance: { side: 0.02, end: 0.05 } };
  const { widths, depths } = couponTrials({ ...tidepool, joint: snug });
  expect(Math.min(...widths.map(({ size }) => size))).toBeGreaterThanOrEqual(snug.tongue.thickness);
  expect(Math.min(...depths.map(({ size }) => size))).toBeGreaterThanOrEqual(snug.tongue.length);
});

test("a housing across the grain stands, one along it lies, both as wide as their letter says", () => {
  expect(housing("width-c-across")[0]).toBeCloseTo(7.1, 9);
  expect(housing("width-c-along")[1]).toBeCloseTo(7.1, 9);
  expect(housing("width-c-across")[1]).toBeCloseTo(housing("width-c-along")[0], 9);
});

test("no two housings of the plate come nearer than the wood that holds them", () => {
  const plate = coupon(tidepool).parts.find((part) => part.id === "coupon-climb")!;
  const boxes = plate.features.flatMap((each) =>
    each.kind === "recess" ? [boundsOf(each.region.outer)] : [],
  );
  for (const [i, a] of boxes.entries())
    for (const b of boxes.slice(i + 1)) {
      const apart = Math.max(a.min.x - b.max.x, b.min.x - a.max.x, a.min.y - b.max.y, b.min.y - a.max.y);
      expect(apart).toBeGreaterThanOrEqual(9 - 1e-9);
    }
});

test("each way of cutting has a plate of the same widths; the depths are tried once", () => {
  const [climb, conventional] = ["coupon-climb", "coupon-conventional"].map((id) => {
    const part = coupon(tidepool).parts.find((each) => each.id === id)!;
    return part.features.flatMap((each) =>
      each.kind === "recess" ? [`${each.id} ${JSON.stringify(sizeOf(each.region.outer))}`] : [],
    );
  });
  expect(conventional).toHaveLength(2 * couponTrials(tidepool).widths.length);
  expect(climb).toEqual(expect.arrayContaining(conventional!));
  expect(climb!.filter((id) => !conventional!.includes(id)).map((id) => id.split(" ")[0])).toEqual(
    couponTrials(tidepool).depths.map(({ letter }) => `depth-${letter.toLowerCase()}`),
  );
});

test("the plates are told apart by their corners: one cut off, or two", () => {
  const corners = coupon(tidepool).parts.map(({ outline }) => outline.vertices.length);
  expect(corners.slice(0, 2)).toEqual([5, 6]);
});

function sizeOf(loop: Parameters<typeof boundsOf>[0]): readonly number[] {
  const { min, max } = boundsOf(loop);
  return [max.x - min.x, max.y - min.y].map((mm) => Number(mm.toFixed(6)));
}

test("a sheet's edge fits a slot that is drawn narrower by the kerf (joints and fits: slot drawn = thickness + air − kerf)", () => {
  for (const { size, clearance: kerf } of kerfTrials(tidepool)) {
    expect(size + kerf).toBeCloseTo(tidepool.sheet.thickness.mean + 2 * tidepool.joint.clearance.side, 9);
  }
});

test("the kerf plate has a slot for each letter and nothing that is not cut through", () => {
  const { features } = kerfCoupon(tidepool);
  expect(features.map(({ kind }) => kind)).toEqual(kerfTrials(tidepool).map(() => "opening"));
});

test("a layered case has no housings to try: its coupon is the slots for the kerf alone", () => {
  const lantern = sample("lantern");
  expect(couponTrials(lantern)).toEqual({ widths: [], depths: [] });
  const { parts, joints } = coupon(lantern);
  expect(parts.map(({ id }) => id)).toEqual(["coupon-kerf"]);
  expect(joints).toEqual([]);
});
