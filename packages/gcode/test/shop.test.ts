import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import {
  CONTROLLERS,
  type Cutter,
  cuttersJsonSchema,
  defaultCutters,
  defaultMachine,
  type Machine,
  machineJsonSchema,
  readCutters,
  readMachine,
} from "../src/index.ts";

const sample = (name: string): string =>
  readFileSync(new URL(`../../../samples/shop/${name}`, import.meta.url), "utf8");

const machineText = sample("machine.yaml");
const cuttersText = sample("cutters.yaml");

test("the sample router is the one used where no file is given", () => {
  expect(readMachine(machineText, "machine.yaml")).toMatchObject({ ok: true, value: defaultMachine() });
});

test("the sample drawer is the one used where no file is given", () => {
  expect(readCutters(cuttersText, "cutters.yaml")).toMatchObject({ ok: true, value: defaultCutters() });
});

/** The sample router with one line replaced. */
function machineWith(from: string, to: string): Machine {
  const changed = machineText.replace(from, to);
  expect(changed).not.toBe(machineText);
  const read = readMachine(changed, "machine.yaml");
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("\n"));
  return read.value;
}

test("a router file may start from a shipped set of flags and change some", () => {
  const machine = machineWith(
    "controller: basic",
    "controller: { like: full, decimals: 5, lineNumbers: false }",
  );
  expect(machine.controller).toEqual({ ...CONTROLLERS.full, decimals: 5, lineNumbers: false });
});

test("flags alone change the basic set", () => {
  const machine = machineWith("controller: basic", "controller: { arcs: false }");
  expect(machine.controller).toEqual({ ...CONTROLLERS.basic, arcs: false });
});

test("a length may name its own unit", () => {
  expect(machineWith("travel: { x: 1260,", "travel: { x: 49 1/2 in,").travel.x).toBeCloseTo(1257.3, 9);
});

function problems(text: string, read: typeof readMachine | typeof readCutters): readonly string[] {
  const result = read(text, "shop.yaml");
  return result.ok ? [] : result.problems.map(({ message }) => message);
}

/** Every problem stands at its line and column, and says what is allowed. */
function checkMachine(from: string, to: string, ...expected: string[]): void {
  const found = problems(machineText.replace(from, to), readMachine);
  expect(found.length).toBe(expected.length);
  expected.forEach((part, k) => {
    expect(found[k]).toContain(part);
  });
}

test("a router with a key that nobody knows", () =>
  checkMachine(
    "safeHeight: 5",
    "safeHight: 5",
    'shop.yaml:14:1: safeHight: found the unknown key "safeHight"; allowed: did you mean "safeHeight"?',
  ));
test("a router with a negative travel", () =>
  checkMachine(
    "x: 1260",
    "x: -1",
    "shop.yaml:8:14: travel.x: found -1; allowed: a length from 50 mm to 10000 mm",
  ));
test("a router with a word for a feed", () =>
  checkMachine(
    "{ xy: 5000, z: 1500 }",
    "{ xy: fast, z: 1500 }",
    'found "fast"; allowed: mm/min from 10 to 100000',
  ));
test("a controller that nobody has", () =>
  checkMachine("controller: basic", "controller: shiny", "allowed: basic, full, or a group of flags"));
test("a controller flag that nobody knows", () =>
  checkMachine(
    "controller: basic",
    "controller: { like: basic, arc: true }",
    'found the unknown key "arc"; allowed: did you mean "arcs"?',
  ));
test("a controller flag with a value that it cannot have", () =>
  checkMachine(
    "controller: basic",
    "controller: { decimals: 9 }",
    "controller.decimals: found 9; allowed: decimals, a whole number from 3 to 5",
  ));
test("a spindle that is slowest at its fastest", () =>
  checkMachine(
    "maxRpm: 24000",
    "maxRpm: 2400",
    "spindle: found a group of keys; allowed: minRpm at most maxRpm",
  ));

function checkCutters(from: string, to: string, ...expected: string[]): void {
  const found = problems(cuttersText.replace(from, to), readCutters);
  expect(found.length).toBe(expected.length);
  expected.forEach((part, k) => {
    expect(found[k]).toContain(part);
  });
}

test("two cutters of one number", () =>
  checkCutters(
    "number: 2",
    "number: 1",
    "cutters[1].number: found 1; allowed: a value that no other cutter has; cutters[0] has this one",
  ));
test("a compression cutter needs the length of its tip", () =>
  checkCutters("    upCutLength: 5\n", "", "cutters[2].upCutLength"));
test("a cutter without a diameter", () =>
  checkCutters(
    "    diameter: 1/8 in\n",
    "",
    'cutters[3].diameter: found nothing: the key "diameter" is missing; allowed: a length from 0.2 mm',
  ));
test("a cutter of a kind that nobody sells", () =>
  checkCutters("kind: drill", "kind: auger", 'cutters[5].kind: found "auger"; allowed: up-cut, down-cut'));
test("an empty drawer", () => {
  expect(problems("cutters: []", readCutters)[0]).toContain("one cutter or more");
});

test("a drawer in inches", () => {
  const read = readCutters(
    "units: in\ncutters:\n  - { id: a, number: 1, kind: straight, diameter: 1/4, fluteLength: 1, shankDiameter: 0.25, maxRpm: 20000, set: { rpm: 12000 } }",
    "inches.yaml",
  );
  const cutter: Partial<Cutter> = { diameter: 6.35, fluteLength: 25.4, flutes: 2, holder: null };
  expect(read).toMatchObject({ ok: true, value: [cutter] });
});

test("editors get a schema of both files", () => {
  expect(Object.keys(machineJsonSchema().properties ?? {})).toContain("bedAllowance");
  expect(cuttersJsonSchema()).toMatchObject({ properties: { cutters: { type: "array" } } });
});

test("a router file may say how it cuts, and leave the rest as shipped", () => {
  const machine = machineWith(
    "  hold: { kind: tabs, width: 5, height: 1.5, every: 350 }",
    "  hold: { kind: skin }",
  );
  expect(machine.cutting.hold).toEqual({ kind: "skin", height: 0.4, finalPass: true });
  const steep = machineWith("rampDeg: 5 ", "rampDeg: 3 ");
  expect(steep.cutting.rampAngle).toBeCloseTo((3 * Math.PI) / 180, 12);
  const fine = machineWith("finish: null ", "finish: { allowance: 0.5 } ");
  expect(fine.cutting.finish).toEqual({ allowance: 0.5, roughing: "conventional" });
});
test("a clamp has four measures", () => {
  expect(machineWith("clamps: []", "clamps: [[0, 10, 30, 1 in]]").clamps).toEqual([[0, 10, 30, 25.4]]);
  const [problem] = problems(machineText.replace("clamps: []", "clamps: [[0, 10, 30]]"), readMachine);
  expect(problem).toContain("four lengths: [left, bottom, width, height]");
});
test("a router file that says nothing of clamps, pins and cutting has the shipped ones", () => {
  const from = machineText.indexOf("# How high clamps");
  const to = machineText.indexOf("# What the controller understands");
  const read = readMachine(machineText.slice(0, from) + machineText.slice(to), "machine.yaml");
  expect(read).toMatchObject({ ok: true, value: defaultMachine() });
});
