import { polyline } from "@dryfit/geometry";
import type { RoundOver } from "@dryfit/joinery";
import { describe, expect, test } from "vitest";
import { cuttingRadius, takenIn } from "../src/cut/edge-profile.ts";
import type { CutterFacts } from "../src/proof.ts";
import { proveCuts } from "../src/prove-cuts.ts";
import { CUTTER, PLATE, plateJob } from "./plate.ts";

const ROUND: CutterFacts = {
  number: 2,
  id: "round-2",
  kind: "round-over",
  diameter: 10.4,
  fluteLength: 8,
  shankDiameter: 6,
  maxRpm: 22000,
  cornerRadius: 2,
  bearingDiameter: 6,
  bearingHeight: 3,
};
const V90: CutterFacts = {
  ...CUTTER,
  number: 2,
  id: "v-90",
  kind: "v",
  diameter: 12,
  fluteLength: 6,
  angleDeg: 90,
};

/** Along the plate's lower edge, from 10 to 60. */
const EDGE: RoundOver = {
  id: "round-bottom",
  run: polyline([
    { x: 10, y: 0 },
    { x: 60, y: 0 },
  ]),
  radius: 2,
  faces: ["A"],
  form: "round",
  by: "cutter",
};

interface Pass {
  /** The axis under the edge, which lies at y = 20, and the tip over the bed; the sheet is 10 thick. */
  readonly y?: number;
  readonly z?: number;
  readonly from?: number;
  readonly to?: number;
  readonly first?: boolean;
  readonly edge?: string;
}

/** The codes of the plate's proof with one more program that makes its edge, after the outline or first of all. */
function codes(cutter: CutterFacts, over: RoundOver, left: number, pass: Pass): string[] {
  const job = plateJob({ part: { ...PLATE, roundOvers: [over] } });
  // In a slot as wide as its bearing it goes where the outline's cutter went: 3 under the edge.
  const { y = 17, z = 5, from = 40 + left, to = 90 - left, first = false, edge = over.id } = pass;
  const text = `G21 G17 G90 G94 G54\nG0 Z15\nS18000 M3\nG4 P3\nG0 X${from} Y${y}\nG1 Z${z} F600\nG1 X${to} F1200\nG0 Z15\nM5\nM30\n`;
  const program = {
    ...job.programs[0]!,
    file: "edge.nc",
    text,
    cutters: [cutter],
    tabs: [],
    edges: [{ part: "plate", edge, face: "A" as const, left: [left, left] as const }],
  };
  const [a, b] = job.programs as readonly [typeof program, typeof program];
  const { findings } = proveCuts({ ...job, programs: first ? [program, a, b] : [a, program, b] });
  return [...new Set(findings.filter(({ severity }) => severity === "error").map(({ code }) => code))].sort();
}

describe("profiles", () => {
  test("a round-over cutter's ends at its bearing and at its radius more", () => {
    expect(cuttingRadius(ROUND, 3)).toBe(0);
    // Derived: bearing 3 + radius 2 − √(2² − u²), u over the profile's lower end.
    expect(cuttingRadius(ROUND, 4)).toBeCloseTo(5 - Math.sqrt(3), 12);
    expect(cuttingRadius(ROUND, 4.9999)).toBeCloseTo(5, 1);
  });
  test("a V of 90° is as wide as it is deep on each side", () =>
    expect(cuttingRadius(V90, 2.5)).toBeCloseTo(2.5, 12));
  test("a rounding takes in all its radius at the face and nothing below it", () => {
    expect(takenIn(EDGE, 0)).toBeCloseTo(2, 12);
    expect(takenIn(EDGE, 1)).toBeCloseTo(2 - Math.sqrt(3), 12);
    expect(takenIn(EDGE, 2)).toBe(0);
  });
  test("a chamfer takes in as much as is left of it", () =>
    expect(takenIn({ form: "chamfer", radius: 2 }, 0.5)).toBeCloseTo(1.5, 12));
});

describe("a rounded edge", () => {
  // Derived: it stops √(5² − 3²) short of both ends, so that it takes nothing beyond them.
  const check = (pass: Pass, expected: readonly string[], left = 4) =>
    expect(codes(ROUND, EDGE, left, pass)).toEqual(expected);
  test("is right where the bearing just touches it", () => check({}, []));
  test("loses wood where the cutter runs 0.05 too near", () =>
    check({ y: 17.05 }, ["bearing_in_wood", "gouge"]));
  test("loses wood where the cutter runs 0.05 too deep", () => check({ z: 4.95 }, ["gouge"]));
  test("loses wood where the cutter runs on beyond its end", () => check({ to: 88 }, ["gouge"]));
  test("keeps wood where the cutter runs 0.2 too far off", () =>
    check({ y: 16.8 }, ["bearing_in_wood", "edge_uncut"]));
  test("keeps wood where the cutter runs 0.2 too high", () => check({ z: 5.2 }, ["edge_uncut"]));
  test("keeps wood where the cutter stops before it said", () => check({ to: 80 }, ["edge_uncut"]));
  test("is not made of wood in which the bearing stands", () => check({ first: true }, ["bearing_in_wood"]));
  test("must be one that the part has", () => check({ edge: "round-top" }, ["unknown_edge"]));
});

describe("a chamfered edge", () => {
  const chamfer: RoundOver = { ...EDGE, id: "chamfer-bottom", form: "chamfer" };
  // The point runs 0.5 outside and 0.5 deeper than the chamfer is wide; derived: √(2.5² − 0.5²) short of the ends.
  const check = (pass: Pass, expected: readonly string[]) =>
    expect(codes(V90, chamfer, Math.sqrt(6), { y: 19.5, z: 7.5, ...pass })).toEqual(expected);
  test("is right where the point runs beside it", () => check({}, []));
  test("may be made in solid wood", () => check({ first: true }, []));
  test("loses wood where the cutter runs 0.05 too deep", () => check({ z: 7.45 }, ["gouge"]));
  test("keeps wood where the cutter runs 0.2 too far off", () => check({ y: 19.3 }, ["edge_uncut"]));
  test("of another angle than said loses wood", () =>
    expect(codes({ ...V90, angleDeg: 100 }, chamfer, Math.sqrt(6), { y: 19.5, z: 7.5 })).toContain("gouge"));
});
