import { type Curve, point, polyline, rectangle } from "@dryfit/geometry";
import { describe, expect, test } from "vitest";
import type { Design } from "../src/design.ts";
import type { FindingCode } from "../src/findings.ts";
import { type DrawnShape, findingCodes, findingMeanings, recipe } from "../src/index.ts";
import { plainCase } from "./designs.ts";

/** What the files would draw that some of the broken designs name. */
const drawn: Partial<Record<FindingCode, Design["drawn"]>> = {
  drawing_off_ends: { "cheek.crest.file": shape(polyline([point(0, 0), point(150, 20)])) },
  drawing_rounded: { "openings[0].file": shape(rectangle(point(0, 0), point(30, 20))) },
  drawing_size: { "openings[0].file": shape(rectangle(point(0, 0), point(30, 20))) },
  drawing_web_thin: {
    "openings[0].file": {
      loops: [rectangle(point(0, 0), point(30, 20)), rectangle(point(31, 0), point(60, 20))],
      paths: [],
      findings: [],
    },
  },
  drawing_too_fine: { "openings[0].file": shape(rectangle(point(0, 0), point(30, 2))) },
};

function shape(curve: Curve): DrawnShape {
  return curve.closed
    ? { loops: [curve], paths: [], findings: [] }
    : { loops: [], paths: [curve], findings: [] };
}

function caseFor(code: FindingCode): Design {
  return { ...plainCase(broken[code]), drawn: drawn[code] ?? {} };
}

/** The smallest change to a sound case that raises each code. */
const broken: Readonly<Record<FindingCode, Readonly<Record<string, unknown>>>> = {
  avoid_off_sheet: { "sheet.sizes": [{ size: [1220, 610], avoid: [[1200, 0, 40, 40]] }] },
  case_heavy: {
    inside: { width: 1500, depth: 500, front: 100, back: 150 },
    "sheet.sizes": [[2440, 1220]],
  },
  clearance_loose: { "joint.clearance": { side: 0.3 } },
  clearance_tight: { "joint.clearance": { side: 0.01 } },
  cleat_over_crest: { tier: { slats: 3, slat: 45, height: 75, swing: 0 } },
  crest_below_rail: { cheek: { crest: { above: -2 } } },
  crest_curve_impossible: { cheek: { crest: { form: "batten", through: { at: 10, height: 300 } } } },
  crest_low: { cheek: { crest: { form: "arc", through: { at: 80, height: 1 } } } },
  crest_steep: {
    "sheet.thickness": 6,
    cutter: 20,
    cheek: { crest: { form: "arc", through: { at: 30, height: 110 } } },
  },
  crest_through_off: { cheek: { crest: { form: "arc", through: { at: 200, height: 60 } } } },
  cutter_wide: { cutter: 8 },
  edge_unknown: { edges: [{ panel: "base", edge: "front", radius: 3 }] },
  drawing_missing: { cheek: { crest: { file: "crest.svg" } } },
  drawing_off_ends: { cheek: { crest: { file: "crest.svg" } } },
  drawing_rounded: { openings: [{ panel: "rail-back", file: "star.svg", from: { left: 150, floor: 40 } }] },
  drawing_size: { openings: [{ panel: "rail-back", file: "star.svg", from: { left: 150, floor: 40 } }] },
  drawing_web_thin: { openings: [{ panel: "rail-back", file: "star.svg", from: { left: 150, floor: 40 } }] },
  drawing_too_fine: { openings: [{ panel: "rail-back", file: "star.svg", from: { left: 150, floor: 40 } }] },
  end_gap_small: { "joint.clearance": { end: 0.1 } },
  feet_do_not_meet_belly: {
    cheek: { feet: { front: { drop: 20, length: 110 }, back: { drop: 20, length: 110 } } },
  },
  foot_corner_wide: { cheek: { feet: { front: { drop: 4, radius: 30 }, back: { drop: 4 } } } },
  hole_drilled: {
    openings: [{ panel: "rail-back", shape: "circle", size: { hole: 5 }, from: { left: 100, floor: 40 } }],
  },
  housing_deep: { "joint.tongue": { thickness: 7, length: 7.2 } },
  housing_wall_thin: { "sheet.thickness": 7, "joint.tongue": { thickness: 3, length: 3.1 }, cutter: 3 },
  locked_size: { "sheet.locked": [{ part: "base", size: "offcut", x: 10, y: 10 }] },
  locked_unknown: { "sheet.locked": [{ part: "lid", x: 10, y: 10 }] },
  name_twice: {
    openings: [
      { id: "in", panel: "rail-back", shape: "jack", from: { left: 100, floor: 40 } },
      { id: "in", panel: "rail-back", shape: "jack", from: { left: 200, floor: 40 } },
    ],
  },
  opening_corner_tight: {
    openings: [
      {
        panel: "rail-back",
        shape: "rectangle",
        size: { width: 30, height: 20, corner: 1 },
        from: { left: 100, floor: 40 },
      },
    ],
  },
  opening_meets_joint: {
    openings: [{ panel: "rail-back", shape: "jack", from: { left: 100, floor: 8 } }],
  },
  opening_meets_opening: {
    openings: [
      { panel: "rail-back", shape: "jack", from: { left: 100, floor: 40 } },
      { panel: "rail-back", shape: "jack", from: { left: 110, floor: 40 } },
    ],
  },
  opening_meets_part: {
    tier: { slats: 2, slat: 50, height: 60 },
    openings: [{ panel: "cheek-left", shape: "circle", size: { hole: 10 }, from: { back: 60, floor: 30 } }],
  },
  opening_near_edge: {
    openings: [{ panel: "rail-back", shape: "circle", size: { hole: 10 }, from: { left: 100, top: 10 } }],
  },
  opening_off_panel: {
    openings: [{ panel: "rail-back", shape: "circle", size: { hole: 10 }, from: { left: 100, top: 2 } }],
  },
  opening_place: { openings: [{ panel: "rail-back", shape: "jack", from: { left: 100, right: 100 } }] },
  opening_too_small: {
    openings: [
      {
        panel: "rail-back",
        shape: "slot",
        size: { width: 30, height: 4 },
        from: { left: 100, floor: 40 },
      },
    ],
  },
  overhang_short: { "joint.rails": "full", cheek: { overhang: { front: 2, back: 20 } } },
  panel_larger_than_sheet: { "sheet.sizes": [[320, 320]] },
  panel_unknown: { openings: [{ panel: "cheek-lefft", shape: "jack", from: { front: 80, floor: 40 } }] },
  layered_edge_short: { construction: "layered", "inside.depth": 20, joint: {} },
  pins_no_room: {
    construction: "layered",
    joint: {},
    "sheet.thickness": [6, 6.1],
    cutter: 3,
    inside: { width: 300, depth: 120, front: 40, back: 45 },
    layers: { pins: { count: 12, diameter: 20 } },
  },
  pocket_left_out: {
    construction: "layered",
    joint: {},
    openings: [{ panel: "rail-back", shape: "jack", from: { left: 100, floor: 40 } }],
  },
  tongue_full: { construction: "layered", joint: { rails: "inner" } },
  tongue_long_for_layers: { construction: "layered", joint: { tongue: { length: 14.5 } } },
  pocket_deep: {
    openings: [{ panel: "rail-back", shape: "jack", size: { leave: 1 }, from: { left: 100, floor: 40 } }],
  },
  rail_style: {},
  rake_forward: { cheek: { feet: { front: { drop: 20, length: 40 } } } },
  rake_steep: { cheek: { feet: { back: { drop: 80, length: 40 } } } },
  reading_odd: { "sheet.thickness": [14.8, 14.8, 14.7, 12.9] },
  round_over_opens_joint: { edges: [{ panel: "cheek-left", edge: "belly", radius: 3 }] },
  round_over_stops: { edges: [{ panel: "cheek-left", edge: "crest", radius: 3 }] },
  round_over_wide: { edges: [{ panel: "rail-front", edge: "top", radius: 9 }] },
  relief_breaks_out: {
    openings: [
      {
        panel: "rail-back",
        shape: "rectangle",
        size: { width: 30, height: 30 },
        relief: "along-height",
        from: { left: 100, top: 18.5 },
      },
    ],
  },
  relief_idle: {
    openings: [{ panel: "rail-back", shape: "jack", relief: "diagonal", from: { left: 100, floor: 40 } }],
  },
  relief_too_wide: {
    openings: [{ panel: "rail-back", shape: "usb", relief: "along-width", from: { left: 100, floor: 40 } }],
  },
  screw_near_opening: {
    openings: [
      {
        panel: "cheek-left",
        shape: "round-audio",
        size: { hole: 26 },
        from: { front: 80, floor: 32 },
      },
    ],
  },
  sheet_all_margin: { "sheet.margin": 200, "sheet.sizes": [[1220, 400]] },
  slat_bends: { tier: { slats: 2, slat: 30, height: 45, swing: 0, bearers: { count: 0 } } },
  stop_short: { "joint.stop": 9 },
  supply_low: { tier: { slats: 2, slat: 50, height: 45 } },
  thickness_single: { "sheet.thickness": 14.8 },
  thickness_spread: { "sheet.thickness": [14.4, 14.8, 15.1] },
  tier_bearers_off: { tier: { slats: 2, slat: 50, height: 45, bearers: { count: 2, inset: 20 } } },
  tier_deep: { tier: { slats: 4, slat: 50, height: 45 } },
  tier_high: { tier: { slats: 2, slat: 50, height: 90 } },
  tier_low: { tier: { slats: 2, slat: 50, height: 25 } },
  tier_over_crest: { tier: { slats: 3, slat: 45, height: 60, swing: 0 } },
  tier_swing_blocked: { tier: { slats: 2, slat: 50, height: 45, swing: 110 } },
  tongue_piece_left_out: {},
  tongue_piece_short: { "inside.front": 20 },
  tongue_short_for_cutter: { "joint.tongue": { thickness: 7, length: 2 } },
  tongue_thick: { "joint.tongue": { thickness: 13, length: 6.8 }, "joint.stop": 1 },
  tongue_thin: { "joint.tongue": { thickness: 3, length: 6.8 }, cutter: 3 },
};

function codes(changes: Readonly<Record<string, unknown>>): string[] {
  return recipe(plainCase(changes)).findings.map((f) => f.code);
}

test("the plain case has notes only", () => {
  const worse = recipe(plainCase()).findings.filter((f) => f.severity !== "note");
  expect(worse).toEqual([]);
});

describe("a small broken design raises", () => {
  for (const code of findingCodes) {
    test(code, () => expect(recipe(caseFor(code)).findings.map((f) => f.code)).toContain(code));
  }
});

describe("every finding", () => {
  const found = findingCodes.flatMap((code) => recipe(caseFor(code)).findings);
  test("has a meaning in the table", () => {
    for (const { code } of found) expect(findingMeanings[code as FindingCode]).toMatch(/\.$/);
  });
  test("is a sentence with a place, and shows no number that is none", () => {
    for (const f of found) {
      expect(f.message).toMatch(/^[A-Z0-9"].*[.?]$/s);
      expect(f.message).not.toMatch(/NaN|Infinity|undefined|-0 /);
      expect(f.path).not.toBe("");
      for (const n of Object.values(f.numbers)) expect(Number.isFinite(n)).toBe(true);
    }
  });
  test("says what to change, unless it only explains", () => {
    for (const f of found) if (f.severity !== "note") expect(f.wayOut).toMatch(/\.$/);
  });
});

describe("numbers and places", () => {
  test("a cutter of 8 in a housing of 7.2", () => {
    const found = recipe(plainCase({ cutter: 8 })).findings.find((f) => f.code === "cutter_wide");
    expect(found).toMatchObject({ severity: "error", path: "cutter", numbers: { cutter: 8, housing: 7.2 } });
    expect(found!.message).toBe("The cutter is 8 mm wide, the housings and grooves 7.2 mm.");
  });
  test("all that is wrong is told at once", () => {
    const found = codes({ "joint.stop": 9, "joint.tongue": { thickness: 7, length: 8 }, cutter: 8 });
    expect(found).toEqual(expect.arrayContaining(["stop_short", "housing_deep", "cutter_wide"]));
  });
  test("a case that cannot be drawn has no parts", () => {
    expect(recipe(plainCase({ cutter: 8 })).parts).toEqual([]);
  });
  test("a case that can be drawn is, and what else is wrong with it is told too", () => {
    const { parts, findings } = recipe(plainCase({ "joint.stop": 9, ...broken.opening_off_panel }));
    expect(parts.length).toBeGreaterThan(0);
    expect(findings.map((f) => f.code)).toEqual(expect.arrayContaining(["stop_short", "opening_off_panel"]));
  });
  test("wood that is missing beside housings is told once a place", () => {
    expect(codes({ "joint.stop": 9 }).filter((code) => code === "stop_short")).toHaveLength(3);
  });
});

describe("names of openings", () => {
  const named = (...ids: readonly string[]) =>
    codes({
      openings: ids.map((id, i) => ({
        id,
        panel: "rail-back",
        shape: "jack",
        from: { left: 60 + 60 * i, floor: 40 },
      })),
    });
  test("may end in a number", () => expect(named("jack", "jack-2")).not.toContain("name_twice"));
  test("an opening is told from another whose name goes on", () => {
    const found = codes({
      openings: [
        { id: "jack", panel: "rail-back", shape: "jack", from: { left: 60, floor: 40 } },
        { id: "jack-2", panel: "rail-back", shape: "jack", from: { left: 64, floor: 40 } },
      ],
    });
    expect(found).toContain("opening_meets_opening");
  });
  test("may not be a joint's", () => expect(named("groove")).toContain("name_twice"));
});
