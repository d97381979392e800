import type { Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { describe, expect, test } from "vitest";
import { commentLines, plainText } from "../src/comment.ts";
import {
  CONTROLLERS,
  type Controller,
  defaultCutters,
  defaultMachine,
  type Machine,
  type Move,
  type Operation,
  type Program,
  resumedProgram,
  resumePoints,
  type SetupPlan,
  writePrograms,
} from "../src/index.ts";
import { textOf, words } from "../src/lines.ts";

const part = { id: "cheek-left", title: "Left cheek", thickness: { min: 14.7, mean: 14.8, max: 15 } } as Part;

const sheet: Sheet = {
  id: "sheet-1",
  stock: {
    id: "ply",
    material: "ply",
    size: [1220, 610],
    outline: null,
    grain: "x",
    count: null,
    price: null,
    keepOuts: [],
  },
  parts: [{ part: part.id, placement: { flip: false, quarters: 0, angle: 0, shift: { x: 0, y: 0 } } }],
};

/** A slot of 40 mm in two passes. */
function slot(id: string, cutter: string, x: number): Operation {
  const moves: Move[] = [
    { kind: "rapid", to: { x, y: 30, z: 5 } },
    { kind: "comment", text: "pass 1 of 2, 3.6 mm deep" },
    { kind: "line", to: { x, y: 30, z: -3.6 }, feed: 1230 },
    { kind: "line", to: { x, y: 70, z: -3.6 }, feed: 4100 },
    { kind: "comment", text: "pass 2 of 2, 7.2 mm deep" },
    { kind: "line", to: { x, y: 30, z: -7.2 }, feed: 2050 },
    { kind: "line", to: { x, y: 70, z: -7.2 }, feed: 4100 },
    { kind: "rapid", to: { x, y: 70, z: 5 } },
  ];
  return { id, kind: "recess", part: part.id, feature: id, cutter, moves, tabs: [], corners: [] };
}

const hole = (id: string, x: number): Operation => ({
  id,
  kind: "bore",
  part: part.id,
  feature: id,
  cutter: "drill-5",
  moves: [
    { kind: "rapid", to: { x, y: 30, z: 5 } },
    { kind: "drill", at: { x, y: 30, z: -15.3 }, from: 1, peck: 10, dwellSeconds: 0, feed: 440 },
  ],
  tabs: [],
  corners: [],
});

const plan = (...operations: Operation[]): SetupPlan => ({ sheet: "sheet-1", setup: "A", operations });

function programs(
  plans: readonly SetupPlan[],
  changes: Partial<Controller> = {},
  machine: Partial<Machine> = {},
): readonly Program[] {
  const base = defaultMachine();
  return writePrograms({
    name: "tidepool",
    parts: [part],
    sheets: [sheet],
    flips: { "sheet-1": { axis: "y", at: 610 } },
    plans,
    machine: { ...base, controller: { ...base.controller, ...changes }, ...machine },
    cutters: defaultCutters(),
    wood: "plywood",
  }).programs;
}

test("a program as an operator reads it", () => {
  const [program] = programs([plan(slot("groove", "down-6", 100))]);
  expect(program!.text.split("\n")).toEqual([
    "(tidepool: sheet-1, face A up, the only program of this setup.)",
    "(Cuts: Left cheek.)",
    "(Sheet: 1220 x 610 mm, 14.8 mm thick, measured 14.7 mm to 15 mm.)",
    "(Zero: X0 Y0 at the sheet's lower left corner as it lies, Z0 on the)",
    "(bed, where the sheet lies. Units mm, feeds mm/min.)",
    "(Cutter 2, 6 mm down-cut, 2 flutes, 18000 rpm, at least 15.5 mm out)",
    "(of the collet.)",
    "(Cuts within X 100.00 to 100.00, Y 30.00 to 70.00, Z 7.60 to 19.80,)",
    "(by the cutter's middle.)",
    "(Deepest cut: Z 7.60, 7.6 mm over the bed.)",
    "(Takes about 9 seconds.)",
    "(The last program for this sheet.)",
    "(Before you start:)",
    "(1. The cutter named is in, sharp and tight.)",
    "(2. The sheet lies flat and is held down, and no clamp or screw)",
    "(stands within that X and Y.)",
    "(3. Zero is where this says. Rapids run 5 mm over the sheet.)",
    "(4. Dust is drawn off. Eyes, ears and lungs are covered.)",
    "G21 G17 G90 G94 G54",
    "G0 Z19.8",
    "S18000 M3",
    "G4 P4",
    "(Block 1: Left cheek, groove)",
    "G17 G90 G94 S18000 M3",
    "G0 X100.0 Y30.0 Z19.8",
    "(Block 1.1: pass 1 of 2, 3.6 mm deep)",
    "G90 G94",
    "G1 X100.0 Y30.0 Z11.2 F1230",
    "Y70.0 F4100",
    "(Block 1.2: pass 2 of 2, 7.2 mm deep)",
    "G90 G94",
    "G1 X100.0 Y30.0 Z7.6 F2050",
    "Y70.0 F4100",
    "G0 Z19.8",
    "(End)",
    "G0 Z19.8",
    "M5",
    "M30",
    "",
  ]);
});

test("the second of two passes taken up again", () => {
  const [program] = programs([plan(slot("groove", "down-6", 100))]);
  expect(resumePoints(program!.text)).toEqual([
    { block: "1", title: "Left cheek, groove", line: 23 },
    { block: "1.1", title: "pass 1 of 2, 3.6 mm deep", line: 26 },
    { block: "1.2", title: "pass 2 of 2, 7.2 mm deep", line: 30 },
  ]);
  const lines = resumedProgram(program!.text, "1.2")!.split("\n");
  expect(lines.slice(0, 2)).toEqual([
    "(Taken up again at block 1.2.)",
    "(What follows was said of the whole program.)",
  ]);
  expect(lines.slice(20)).toEqual([
    "G21 G17 G90 G94 G54",
    "G0 Z19.8",
    "S18000 M3",
    "G4 P4",
    "G17 G90 G94 S18000 M3",
    "G0 X100.0 Y70.0",
    "G1 Z11.2 F1230",
    ...program!.text.split("\n").slice(29),
  ]);
});

/** The lines that hold words, from the first operation of a program of two cutters on. */
function changeLines(changes: Partial<Controller>): readonly string[] {
  const { text } = programs([plan(slot("groove", "down-6", 100), hole("screw", 200))], changes)[0]!;
  const lines = text.split("\n");
  const [begin, end] = [lines.indexOf("G0 Z19.8"), lines.findIndex((l) => l.includes("Block 2"))];
  return lines.slice(begin, end).filter((l) => !/^\(Block|^G17|^[XYZ]|^G[01] X|^G90/.test(l));
}

describe("cutters", () => {
  test("one file each where the machine cannot change them", () => {
    const files = programs([
      plan(slot("a", "down-6", 100), slot("b", "down-6", 150), hole("c", 200), slot("d", "down-6", 250)),
    ]);
    expect(files.map(({ file, cutters }) => [file, ...cutters.map(({ id }) => id)])).toEqual([
      ["sheet-1-a-1.nc", "down-6"],
      ["sheet-1-a-2.nc", "drill-5"],
      ["sheet-1-a-3.nc", "down-6"],
    ]);
    expect(files[1]!.text.split("\n")[0]).toBe(
      "(tidepool: sheet-1, face A up, program 2 of 3 of this setup.)",
    );
  });
  test("changed in the program, with the controller's table of lengths", () =>
    expect(changeLines({ cutterChange: "in-program", lengthTable: true })).toEqual([
      "G0 Z19.8",
      "T2 M6",
      "G43 H2",
      "S18000 M3",
      "G4 P4",
      "G0 Z19.8",
      "G0 Z19.8",
      "T7 M6",
      "G43 H7",
      "S8000 M3",
      "G4 P4",
    ]));
  test("changed by hand at a stop", () =>
    expect(changeLines({ cutterChange: "pause" })).toEqual([
      "G0 Z19.8",
      "S18000 M3",
      "G4 P4",
      "G0 Z19.8",
      "G0 Z19.8",
      "M5",
      "(MSG, Fit cutter 7, 5 mm drill, 2 flutes, set Z zero anew, then go)",
      "(on.)",
      "T7 M0",
      "S8000 M3",
      "G4 P4",
    ]));
  test("a spindle with a switch of its own", () =>
    expect(changeLines({ cutterChange: "pause", spindleControl: false, maxLineLength: 100 })).toEqual([
      "G0 Z19.8",
      "(MSG, Switch the spindle on at 18000 rpm, then go on.)",
      "M0",
      "G0 Z19.8",
      "G0 Z19.8",
      "(MSG, Switch the spindle off, fit cutter 7, 5 mm drill, 2 flutes, set Z zero anew, then go on.)",
      "T7 M0",
      "(MSG, Switch the spindle on at 8000 rpm, then go on.)",
      "M0",
    ]));
});

describe("drilling", () => {
  test("two like holes are one cycle and a place", () => {
    const both: Operation = {
      ...hole("screws", 200),
      moves: [...hole("", 200).moves, ...hole("", 232).moves.slice(1)],
    };
    const { text } = programs([plan(both)], { cannedDrilling: true })[0]!;
    expect(text).toContain("G98 G83 X200.0 Y30.0 Z-0.5 R15.8 Q10.0 F440\nX232.0 Y30.0\nG80\n");
  });
  test("a dwell in milliseconds", () => {
    const drill = hole("screw", 200);
    const still: Operation = {
      ...drill,
      moves: drill.moves.map((m) => (m.kind === "drill" ? { ...m, peck: null, dwellSeconds: 0.5 } : m)),
    };
    expect(programs([plan(still)], { cannedDrilling: true, dwellUnit: "ms" })[0]!.text).toContain(
      "G82 X200.0 Y30.0 Z-0.5 R15.8 P500 F440",
    );
    expect(programs([plan(still)])[0]!.text).toContain("Z-0.5 F440\nG4 P0.5\nG0 Z19.8");
  });
});

describe("setup B and other zeros", () => {
  test("a turned sheet says how it was turned", () => {
    const { text } = programs([{ ...plan(slot("rebate", "down-6", 100)), setup: "B" }], {
      maxLineLength: 200,
    })[0]!;
    expect(text).toContain("(Sheet turned over like a page about X 610 mm: left and right change places.)");
    expect(text).toContain("held down, on its pins,");
  });
  test("with zero on the sheet, cuts are below it and the bed is 14.8 mm down", () => {
    const [program] = programs([plan(hole("screw", 200))], {}, { zZero: "top" });
    expect(program!.text).toContain("(Deepest cut: Z -15.30, 0.5 mm into the bed.)");
    expect(program!.deepest).toBe(-15.3);
  });
  test("a machine too short for the sheet is told", () => {
    const small = { ...defaultMachine(), travel: { x: 90, y: 660, z: 20 } };
    const { findings } = writePrograms({
      name: "tidepool",
      parts: [part],
      sheets: [sheet],
      flips: {},
      plans: [plan(slot("a", "down-6", 100), slot("b", "down-6", 200))],
      machine: small,
      cutters: defaultCutters(),
      wood: "plywood",
    });
    expect(findings.map(({ code, message }) => [code, message])).toEqual([
      ["beyond_travel", "sheet-1-a-1.nc moves 100 mm along X, and the machine 90 mm."],
    ]);
  });
  test("what the parts take adds up to the whole", () => {
    const [program] = programs([plan(slot("a", "down-6", 100))]);
    const { minutes, partMinutes } = program!;
    expect(Object.values(partMinutes).reduce((a, b) => a + b)).toBeCloseTo(minutes, 12);
    expect(partMinutes[""]).toBeCloseTo(4 / 60, 12);
  });
  test("each program names the next", () => {
    const two = [
      plan(slot("a", "down-6", 100), hole("b", 200)),
      { ...plan(slot("c", "down-6", 100)), setup: "B" as const },
    ];
    const next = programs(two).map(({ text }) =>
      text.split("\n").find((line) => /Next|last program/.test(line)),
    );
    expect(next).toEqual([
      "(Next: sheet-1-a-2.nc.)",
      "(Next: turn the sheet over, then sheet-1-b-1.nc.)",
      "(The last program for this sheet.)",
    ]);
  });
  test("tabs are told, for they must be sawn", () => {
    const tab = { part: part.id, at: [1, 2] as const, length: 5, height: 1.5 };
    const held = { ...slot("outline", "down-6", 100), tabs: [tab, tab] };
    expect(programs([plan(held)])[0]!.text).toContain(
      "(2 tabs, 1.5 mm high, hold the parts afterwards: saw through them.)",
    );
    const thin = { ...slot("outline", "down-6", 100), skin: 0.3 };
    expect(programs([plan(thin)], { maxLineLength: 100 })[0]!.text).toContain(
      "(A skin of 0.3 mm holds the parts afterwards: cut through it with a knife.)",
    );
    expect(programs([plan(thin)])[0]!.skin).toBe(0.3);
  });
  test("a program of a hundred and thirty thousand blocks is written like any other", () => {
    const base = slot("long", "down-6", 100);
    const steps = Array.from(
      { length: 130_000 },
      (_, k): Move => ({
        kind: "line",
        to: { x: 100 + (k % 2), y: 30, z: -1 },
        feed: 3000,
      }),
    );
    const [program] = programs([plan({ ...base, moves: [base.moves[0]!, ...steps, base.moves.at(-1)!] })]);
    expect(program!.blocks).toBeGreaterThan(130_000);
  });
  test("a setup with nothing to do has no program", () => expect(programs([plan()])).toEqual([]));
  test("an operation with a cutter that nobody has is our mistake", () =>
    expect(() => programs([plan(slot("a", "long-gone", 100))])).toThrow(RangeError));
});

describe("comments", () => {
  const lines = (text: string, changes: Partial<Controller> = {}): readonly string[] =>
    commentLines(text, { ...CONTROLLERS.basic, ...changes });
  test("brackets and semicolons would end a comment: they go", () =>
    expect(plainText("a (b) [c] {d}; 100 %")).toBe("a b c d , 100"));
  test("letters that old controllers lack are written out", () =>
    expect(plainText("Fußbrett “½” 6 × 4 − 2° naïve 木")).toBe('Fussbrett "1/2" 6 x 4 - 2 deg naive ?'));
  test("long ones are wrapped, longest words cut", () =>
    expect(lines("one two three fourfive", { maxLineLength: 9 })).toEqual([
      "(one two)",
      "(three)",
      "(fourfiv)",
      "(e)",
    ]));
  test("semicolons where the controller wants them", () =>
    expect(lines("a; b", { comments: "semicolon" })).toEqual(["; a, b"]));
  test("none where it wants none", () => expect(lines("a", { comments: "none" })).toEqual([]));
});

describe("lines", () => {
  const text = (list: readonly string[], changes: Partial<Controller>): readonly string[] =>
    textOf([words(...list)], { ...CONTROLLERS.basic, ...changes }).split("\n");
  const long = [
    "G2",
    "X-1234.56789",
    "Y-1234.56789",
    "Z-12.34567",
    "I-1234.56789",
    "J-1234.56789",
    "F12000.5",
  ];
  test("a block that is too long gives its feed a block of its own, then its spaces", () => {
    expect(text(long, { maxLineLength: 70 })).toEqual(["F12000.5", long.slice(0, 6).join(" "), ""]);
    expect(text(long, { maxLineLength: 70, lineNumbers: true })).toEqual([
      "N10 F12000.5",
      `N20 ${long.slice(0, 6).join("")}`,
      "",
    ]);
  });
  test("numbers begin anew after 99990", () => {
    const many = textOf(
      Array.from({ length: 10_001 }, () => words("G90")),
      { ...CONTROLLERS.basic, lineNumbers: true },
    ).split("\n");
    expect([many[9998], many[9999]]).toEqual(["N99990 G90", "N10 G90"]);
  });
  test("percent marks stand first and last", () =>
    expect(text(["M30"], { percentMarks: true })).toEqual(["%", "M30", "%", ""]));
});
