import {
  cuttingData,
  defaultCutters,
  defaultMachine,
  type Machine,
  planSheet,
  writePrograms,
} from "@dryfit/gcode";
import { placement, point, polyline, rectangle, roundedRectangle } from "@dryfit/geometry";
import type { Assembly, Design, Part, RoundOver } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import { proveCuts } from "@dryfit/verify";
import fc from "fast-check";
import { expect, test } from "vitest";
import { toProve } from "../packages/job/src/proving.ts";
import { relievedBox } from "../packages/joinery/src/relief.ts";
import { anyJob } from "./any-program.ts";

const CASES = Number(process.env.DRYFIT_CASES ?? 6);

const ROUND = fc.constantFrom("round", "chamfer") as fc.Arbitrary<"round" | "chamfer">;
const FACES = fc.constantFrom(["A"], ["B"], ["A", "B"]) as fc.Arbitrary<readonly ("A" | "B")[]>;

/** A flat panel with openings of all kinds; its top edge is rounded or chamfered. */
function panel(
  relief: "diagonal" | "along-width" | "along-height",
  over: Pick<RoundOver, "form" | "faces">,
): Part {
  const at = (loop: ReturnType<typeof relievedBox>, x: number, y: number) => ({
    closed: true as const,
    vertices: loop.vertices.map((v) => ({ x: v.x + x, y: v.y + y, bulge: v.bulge })),
  });
  return {
    ...BLANK,
    id: "panel",
    title: "Panel",
    outline: roundedRectangle(point(0, 0), point(300, 140), 8),
    features: [
      {
        kind: "opening",
        id: "large",
        title: "Large",
        loop: at(relievedBox(60, 50, { relief, r: 3 }), 60, 70),
      },
      {
        kind: "opening",
        id: "small",
        title: "Small",
        loop: at(relievedBox(20, 16, { relief, r: 3 }), 130, 70),
      },
      { kind: "bore", id: "screw", face: "A", at: point(200, 40), diameter: 3.5, depth: null },
      {
        kind: "recess",
        id: "housing",
        face: "A",
        region: { outer: roundedRectangle(point(220, 30), point(227.2, 110), 3), holes: [] },
        depth: 7.2,
        purpose: "housing",
      },
    ],
    roundOvers: [
      { ...over, id: "top", run: polyline([point(260, 140), point(40, 140)]), radius: 3, by: "cutter" },
    ],
  };
}

/** With zero on its upper face an uneven sheet would give uneven tongues, and is refused: there it is even. */
function onZero(part: Part, { zZero }: Machine): Part {
  const { mean } = part.thickness;
  return zZero === "bed" ? part : { ...part, thickness: { min: mean, mean, max: mean } };
}

/** A rail: a groove on its inside, a rebate at one end from its outside. */
const RAIL: Part = {
  ...{ panel: "rail", material: "ply", grain: "free" as const, faceNames: { A: "inside", B: "outside" } },
  id: "rail",
  title: "Rail",
  thickness: { min: 14.7, mean: 14.8, max: 14.9 },
  outline: rectangle(point(0, 0), point(300, 70)),
  features: [
    {
      kind: "recess",
      id: "groove",
      face: "A",
      region: { outer: rectangle(point(0, 7.7), point(300, 14.9)), holes: [] },
      depth: 7.2,
      purpose: "groove",
    },
    {
      kind: "recess",
      id: "rebate",
      face: "B",
      region: { outer: rectangle(point(0, 0), point(6.8, 70)), holes: [] },
      depth: 7.8,
      purpose: "rebate",
    },
  ],
  roundOvers: [],
  mating: [polyline([point(0, 70), point(0, 0)])],
};

const BLANK = { ...RAIL, panel: "panel", mating: [] };

const anyCutting: fc.Arbitrary<Machine["cutting"]> = fc
  .record({
    direction: fc.constantFrom("climb" as const, "conventional" as const),
    rampDeg: fc.constantFrom(2, 5, 20),
    finish: fc.constantFrom(
      null,
      { allowance: 0.3, roughing: "conventional" as const },
      { allowance: 0.8, roughing: "climb" as const },
    ),
    score: fc.constantFrom(0, 0.5),
    hold: fc.constantFrom(
      defaultMachine().cutting.hold,
      { kind: "tabs" as const, width: 3, height: 1, every: 200 },
      { kind: "skin" as const, height: 0.3, finalPass: true },
      { kind: "skin" as const, height: 0.5, finalPass: false },
    ),
    lead: fc.constantFrom(0, 1, 2),
  })
  .map(({ rampDeg, ...rules }) => ({
    ...defaultMachine().cutting,
    ...rules,
    rampAngle: (rampDeg * Math.PI) / 180,
  }));

const anyWork = fc.record({
  machine: fc.record({ any: anyJob, cutting: anyCutting, depth: fc.constantFrom(0, 6) }).map(
    ({ any: { machine }, cutting, depth }): Machine => ({
      ...machine,
      cutting,
      pins: { ...machine.pins, depth },
    }),
  ),
  relief: fc.constantFrom("diagonal" as const, "along-width" as const, "along-height" as const),
  over: fc.record({ form: ROUND, faces: FACES }),
  clamp: fc.boolean(),
});

test(`${CASES} random ways of cutting take the same wood, and are proved`, { timeout: 600_000 }, () => {
  fc.assert(
    fc.property(anyWork, ({ machine, relief, over, clamp }) => {
      const parts = [panel(relief, over), RAIL].map((part) => onZero(part, machine));
      const cutters = defaultCutters().filter(
        ({ kind, diameter }) => kind === "round-over" || kind === "v" || diameter <= 6.05,
      );
      const keepOuts = clamp
        ? [{ outer: rectangle(point<"sheet">(200, 182), point(240, 196)), holes: [] }]
        : [];
      const stock = {
        id: "stock",
        material: "ply",
        size: [460, 340] as const,
        outline: null,
        grain: "x" as const,
      };
      const sheet: Sheet = {
        id: "sheet-1",
        stock: { ...stock, count: null, price: null, keepOuts },
        parts: [
          { part: "panel", placement: placement(point(60, 24)) },
          { part: "rail", placement: placement(point(60, 216)) },
        ],
      };
      const { setups, flip, findings } = planSheet({
        sheet,
        parts,
        cutters,
        machine,
        data: (cutter, _material, cut) => cuttingData(cutter, machine, "plywood", cut),
      });
      expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
      const flips = flip === null ? {} : { "sheet-1": flip };
      const { programs } = writePrograms({
        ...{ name: "any", parts, sheets: [sheet], flips, plans: setups, machine, cutters },
        wood: "plywood",
      });
      const assembly = { parts, joints: [], poses: {} } as unknown as Assembly;
      const layout = { sheets: [sheet], unplaced: [], findings: [] };
      const road = { assembly, layout, flips, programs, plans: setups, findings: [], steps: 0 };
      const design = { sheet: { name: "ply", density: 680 } } as Design;
      const proof = proveCuts(toProve(road, { machine, design } as Parameters<typeof toProve>[1]));
      const wrong = proof.findings.filter(({ severity }) => severity === "error");
      expect(wrong.map(({ code, message, path }) => `${code} ${path}: ${message}`)).toEqual([]);
    }),
    { seed: 20261126, numRuns: CASES, endOnFailure: true },
  );
});
