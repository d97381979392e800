import { readFileSync } from "node:fs";
import { type Design, explain, readDesign, recipe } from "@dryfit/joinery";
import { expect, test } from "vitest";
import { type FitAnswers, type Fitted, fitDesign } from "../src/fit.ts";
import { SHIPPED_SERVICES } from "../src/order/shipped-services.ts";

const SAMPLES = ["tidepool", "skiff", "halyard"] as const;

function textOf(name: string): string {
  return readFileSync(new URL(`../../../samples/${name}.yaml`, import.meta.url), "utf8");
}

function designOf(text: string): Design {
  const read = readDesign(text, "case.yaml");
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

function fitted(text: string, answers: FitAnswers): Fitted {
  return fitDesign({
    design: { file: "case.yaml", text },
    coupon: { file: "coupon/design.yaml", text },
    answers,
  });
}

const tidepool = textOf("tidepool");

test("the letter of the width becomes the air beside the tongue, and every comment stays", () => {
  const { text } = fitted(tidepool, { width: "C" });
  expect(text).toBe(tidepool.replace("side: 0.1", "side: 0.05"));
});

test("readings become the sheet's, in a list", () => {
  const { text } = fitted(tidepool, { readings: [14.7, 14.8, 14.85] });
  expect(text).toBe(tidepool.replace("thickness: 14.8", "thickness: [14.7, 14.8, 14.85]"));
});

test("the letter that the design has already changes nothing", () => {
  const { text, follows } = fitted(tidepool, { width: "e", depth: "q" });
  expect(text).toBe(tidepool);
  expect(follows).toEqual([]);
});

test.each(SAMPLES)("another width in %s changes the air and what follows from it, all of it told", (name) => {
  const { follows, text } = fitted(textOf(name), { width: "B" });
  const [before, after] = [designOf(textOf(name)), designOf(text!)];
  expect(after.joint.clearance.side).not.toBe(before.joint.clearance.side);
  expect({ ...after, joint: before.joint }).toEqual(before);
  expect(follows.map(({ after: sum }) => sum.id)).toContain("housing.width");
  const told = new Set(follows.map(({ after: sum }) => sum.id));
  const old = new Map(explain(before).map((sum) => [sum.id, sum.value]));
  for (const sum of explain(after)) if (!told.has(sum.id)) expect(sum.value).toBeCloseTo(old.get(sum.id)!, 8);
});

test.each(SAMPLES)(
  "another depth in %s deepens its housings and grooves by as much, and nothing else",
  (name) => {
    const { text } = fitted(textOf(name), { depth: "S" });
    const [before, after] = [designOf(textOf(name)), designOf(text!)];
    const deeper = after.joint.clearance.end - before.joint.clearance.end;
    expect(deeper).not.toBe(0);
    const parts = recipe(after).parts;
    for (const [i, part] of recipe(before).parts.entries()) {
      const features = part.features.map((each) =>
        each.kind === "recess" && (each.purpose === "housing" || each.purpose === "groove")
          ? { ...each, depth: expect.closeTo(each.depth + deeper, 9) }
          : each,
      );
      expect(parts[i]).toEqual({ ...part, features });
    }
  },
);

test("a design in inches is answered in inches", () => {
  const halves = tidepool
    .replace("units: mm", "units: in")
    .replace(/(?<=[ {,[])(\d+(?:\.\d+)?)(?=[ ,}\]\n])/g, "$1 mm")
    .replace(/(dryfit|slats|count|angle|swing): (\d+) mm/g, "$1: $2");
  const { text } = fitted(halves, { depth: "S" });
  expect(designOf(text!).joint.clearance.end).toBeCloseTo(0.6, 3);
  expect(text).toContain("end: 0.02362");
});

test("a letter that the coupon does not have is refused with those that it has", () => {
  const { outcome, text, findings } = fitted(tidepool, { width: "Z" });
  expect([outcome, text]).toEqual(["unreadable", null]);
  expect(findings[0]).toMatchObject({ path: "--width", wayOut: "Allowed: a letter from A to H." });
});

test("letters mean nothing without the coupon that they stand on", () => {
  const design = { file: "case.yaml", text: tidepool };
  const { outcome, findings } = fitDesign({ design, coupon: null, answers: { depth: "Q" } });
  expect(outcome).toBe("unreadable");
  expect(findings[0]!.message).toContain("without a coupon");
});

test("a design with nothing to answer is left alone", () =>
  expect(fitted(tidepool, {}).findings[0]!.message).toContain("nothing to change"));

test("a coupon of another tongue is told", () => {
  const thicker = tidepool.replace("thickness: 7,", "thickness: 7.5,");
  const { findings } = fitDesign({
    design: { file: "case.yaml", text: thicker },
    coupon: { file: "coupon/design.yaml", text: tidepool },
    answers: { width: "C" },
  });
  expect(findings.map(({ code }) => code)).toEqual(["coupon_of_another_tongue"]);
});

test("the slot that takes the sheet's edge gives the service file its kerf", () => {
  const laser = { file: "laser.yaml", text: SHIPPED_SERVICES.laser.text };
  const design = { file: "case.yaml", text: tidepool };
  const answered = (service: typeof laser | null) =>
    fitDesign({ design, coupon: design, service, answers: { kerf: "E" } });
  const { text, serviceText, changes } = answered(laser);
  expect(text).toBe(tidepool);
  expect(serviceText).toBe(laser.text.replace("width: 0.15", "width: 0.2 mm"));
  expect(changes).toEqual([{ file: "laser.yaml", path: "kerf.width", before: "0.15", after: "0.2" }]);
  expect(answered(null).findings[0]!.wayOut).toContain("--service");
});
