import { readFileSync } from "node:fs";
import { withKerf } from "@dryfit/dxf";
import { boundsOf } from "@dryfit/geometry";
import { type Design, explain, type Feature, type Part, readDesign, recipe } from "@dryfit/joinery";
import { expect, test } from "vitest";
import { type FitAnswers, type Fitted, fitDesign } from "../src/fit.ts";
import { readService } from "../src/order/service.ts";
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

/** What of a part is another now: "outline", "thickness", the purpose of a recess, the id of anything else. */
function changesIn(before: Part, after: Part): readonly string[] {
  const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
  const nameOf = (one: Feature): string => (one.kind === "recess" ? one.purpose : one.id);
  expect(after.features.map(({ id }) => id)).toEqual(before.features.map(({ id }) => id));
  const features = before.features.filter((one, i) => !same(one, after.features[i]));
  return [
    ...(same(before.thickness, after.thickness) ? [] : ["thickness"]),
    ...(same(before.outline, after.outline) ? [] : ["outline"]),
    ...new Set(features.map(nameOf)),
  ].sort();
}

function changedParts(name: string, answers: FitAnswers): Readonly<Record<string, readonly string[]>> {
  const { text } = fitted(textOf(name), answers);
  const after = new Map(recipe(designOf(text!)).parts.map((part) => [part.id, part]));
  const all = recipe(designOf(textOf(name))).parts.map(
    (part) => [part.id, changesIn(part, after.get(part.id)!)] as const,
  );
  return Object.fromEntries(all.filter(([, changes]) => changes.length > 0));
}

test.each(["tidepool", "skiff"])(
  "another width in %s widens housings and grooves, and cuts the rails' tongues back: nothing else",
  (name) => {
    const rail = ["groove", "outline", "rebate"];
    expect(changedParts(name, { width: "B" })).toEqual({
      "cheek-left": ["housing"],
      "cheek-right": ["housing"],
      "rail-front": rail,
      "rail-back": rail,
    });
  },
);

test("another width in halyard, whose rails end in full thickness, leaves them no rebate to change", () =>
  expect(changedParts("halyard", { width: "B" })).toEqual({
    "cheek-left": ["housing"],
    "cheek-right": ["housing"],
    "rail-front": ["groove", "outline"],
    "rail-back": ["groove", "outline"],
  }));

test.each([...SAMPLES, "lantern"])(
  "readings in %s change every part's thickness, none's openings",
  (name) => {
    const before = designOf(textOf(name));
    const readings = before.sheet.readings.map((mm) => mm + 0.1);
    const changed = changedParts(name, { readings });
    const { parts } = recipe(before);
    for (const { id } of parts) expect(changed[id]).toContain("thickness");
    // A floor, a slat and a cleat are as large as the inside asks, whatever the sheet.
    for (const { id } of parts.filter(({ panel }) => ["base", "slat", "cleat"].includes(panel)))
      if (name !== "lantern") expect(changed[id]).not.toContain("outline");
    for (const id of ["rail-front", "rail-back"]) expect(changed[id]).toContain("outline");
  },
);

test("lantern's slots are as wide as the thickest reading and its air; its coupon has no width to answer", () => {
  const lantern = textOf("lantern");
  const { text } = fitted(lantern, { readings: [6, 6.1] });
  const after = designOf(text!);
  const slots = recipe(after).parts.flatMap(({ id, features }) =>
    id === "cheek-left-inner"
      ? features.flatMap((one) => (one.kind === "opening" ? [boundsOf(one.loop)] : []))
      : [],
  );
  const narrow = slots.map(({ min, max }) => Math.min(max.x - min.x, max.y - min.y));
  expect(narrow.filter((mm) => Math.abs(mm - (6.1 + 2 * 0.05)) < 1e-6).length).toBeGreaterThan(3);
  for (const answers of [{ width: "B" }, { depth: "Q" }]) {
    const { outcome, findings } = fitted(lantern, answers);
    expect(outcome).toBe("unreadable");
    expect(findings[0]!.wayOut).toContain("a layered case has no housings");
  }
});

test.each([...SAMPLES, "lantern"])(
  "another kerf for %s changes what is drawn, and no finished size",
  (name) => {
    const design = { file: "case.yaml", text: textOf(name) };
    const service = { file: "laser.yaml", text: SHIPPED_SERVICES.laser.text };
    const { text, serviceText } = fitDesign({ design, coupon: design, service, answers: { kerf: "E" } });
    expect(text).toBe(design.text);
    const kerfIn = (file: string): number => {
      const read = readService(file, "laser.yaml");
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      return read.value.kerf.width;
    };
    const [before, after] = [kerfIn(service.text), kerfIn(serviceText!)];
    expect(after - before).toBeCloseTo(0.05, 9);
    for (const part of recipe(designOf(design.text)).parts) {
      const [a, b] = [before, after].map((kerf) => boundsOf(withKerf(part, kerf).outline));
      expect(b!.max.x - b!.min.x - (a!.max.x - a!.min.x)).toBeCloseTo(0.05, 4);
      expect(b!.max.y - b!.min.y - (a!.max.y - a!.min.y)).toBeCloseTo(0.05, 4);
    }
  },
);

test("the better way of cutting goes into the machine file, its comments kept", () => {
  const machine = {
    file: "machine.yaml",
    text: readFileSync(new URL("../../../samples/shop/machine.yaml", import.meta.url), "utf8"),
  };
  const design = { file: "case.yaml", text: tidepool };
  const answered = (answers: FitAnswers, file: typeof machine | null) =>
    fitDesign({ design, coupon: design, machine: file, answers });
  const { text, machineText, changes } = answered({ width: "C", direction: "Conventional" }, machine);
  expect(text).toBe(tidepool.replace("side: 0.1", "side: 0.05"));
  expect(machineText).toBe(machine.text.replace("direction: climb", "direction: conventional"));
  expect(changes.at(-1)).toEqual({
    file: "machine.yaml",
    path: "cutting.direction",
    before: "climb",
    after: "conventional",
  });
  expect(answered({ direction: "conventional" }, null).findings[0]!.wayOut).toContain("--machine");
  expect(answered({ direction: "sideways" }, machine).findings[0]!.wayOut).toBe(
    "Allowed: climb or conventional.",
  );
  const bare = { ...machine, text: machine.text.replace(/^cutting:[\s\S]*?(?=^\w)/m, "") };
  expect(bare.text).not.toBe(machine.text);
  expect(answered({ direction: "conventional" }, bare).machineText).toMatch(
    /cutting:.*\n? *direction: conventional/,
  );
});

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
