import { readFileSync } from "node:fs";
import {
  circle,
  intersection,
  type Loop,
  placement,
  type Region,
  rectangle,
  roundedRectangle,
} from "@dryfit/geometry";
import type { Assembly, Part } from "@dryfit/joinery";
import type { Sheet } from "@dryfit/nest";
import type { CutterFacts, JobToProve, ProgramFile } from "../src/proof.ts";

/** A plate with one of everything, on a sheet of 140 × 100, and the hand-written pair of programs that cuts it. */
const OUTLINE: Loop<"panel"> = {
  closed: true,
  vertices: [
    { x: 0, y: 0, bulge: 0 },
    { x: 70, y: 0, bulge: Math.tan(Math.PI / 8) },
    { x: 80, y: 10, bulge: 0 },
    { x: 80, y: 50, bulge: Math.tan(Math.PI / 8) },
    { x: 70, y: 60, bulge: 0 },
    { x: 0, y: 60, bulge: 0 },
  ],
};
const region = (outer: Loop<"panel">): Region<"panel"> => ({ outer, holes: [] });

export const PLATE: Part = {
  id: "plate",
  panel: "plate",
  title: "Plate",
  material: "ply",
  thickness: { min: 10, mean: 10, max: 10 },
  outline: OUTLINE,
  features: [
    {
      kind: "recess",
      id: "rebate-left",
      face: "A",
      region: region(rectangle({ x: 0, y: 0 }, { x: 6, y: 60 })),
      depth: 4,
      purpose: "rebate",
    },
    {
      kind: "recess",
      id: "housing",
      face: "A",
      region: region(roundedRectangle({ x: 20, y: 20 }, { x: 60, y: 27 }, 3)),
      depth: 6,
      purpose: "housing",
    },
    { kind: "opening", id: "hole", loop: circle({ x: 65, y: 40 }, 8), title: "Hole" },
    { kind: "bore", id: "bore", face: "A", at: { x: 12, y: 45 }, diameter: 6, depth: null },
    {
      kind: "recess",
      id: "rebate-top",
      face: "B",
      region: intersection([region(OUTLINE)], [region(rectangle({ x: 0, y: 54 }, { x: 80, y: 60 }))])[0]!,
      depth: 5,
      purpose: "rebate",
    },
  ],
  roundOvers: [],
  grain: "free",
  faceNames: { A: "front", B: "back" },
  mating: [],
};

export const CUTTER: CutterFacts = {
  number: 1,
  id: "straight-6",
  kind: "straight",
  diameter: 6,
  fluteLength: 22,
  shankDiameter: 6,
  maxRpm: 24000,
  depthPerPass: 4,
};

const SHEET: Sheet = {
  id: "sheet-1",
  stock: {
    id: "offcut",
    material: "ply",
    size: [140, 100],
    outline: null,
    grain: "x",
    count: 1,
    price: null,
    // A clamp in the waste to the right, 4 mm high.
    keepOuts: [region(rectangle({ x: 120, y: 55 }, { x: 138, y: 95 })) as Region<string> as Region<"sheet">],
  },
  parts: [{ part: "plate", placement: placement({ x: 30, y: 20 }) }],
};

const ASSEMBLY: Assembly = {
  name: "plate",
  parts: [PLATE],
  poses: { plate: { origin: { x: 0, y: 0, z: 0 }, x: "+x", y: "+y", into: "-z", datum: "A" } },
  joints: [],
  inside: { width: 1, depth: 1, front: 1, back: 1 },
  outside: { width: 1, depth: 1, height: 1 },
  rake: 0,
  feet: [],
  hinge: null,
  findings: [],
};

export function programText(file: string): string {
  return readFileSync(new URL(`../../../test/broken/programs/${file}`, import.meta.url), "utf8");
}

const program = (setup: "A" | "B", text: string): ProgramFile => ({
  file: `plate-${setup.toLowerCase()}.nc`,
  text,
  sheet: "sheet-1",
  setup,
  zZero: "bed",
  cutters: [CUTTER],
  // The bottom of the cut is 0.2 under the sheet, the tabs stand 1.5 over the bed.
  tabs:
    setup === "A"
      ? [
          { part: "plate", at: [70, 20], length: 12, height: 1.5 },
          { part: "plate", at: [70, 80], length: 12, height: 1.5 },
        ]
      : [],
  corners: [],
  skin: null,
});

export interface PlateJob {
  readonly a?: string;
  readonly b?: string;
  readonly part?: Part;
  readonly cutter?: CutterFacts;
}

/** The job with its good programs, or others in their place. */
export function plateJob({ a, b, part = PLATE, cutter = CUTTER }: PlateJob = {}): JobToProve {
  const programs = [
    program("A", a ?? programText("plate-a.nc")),
    program("B", b ?? programText("plate-b.nc")),
  ];
  return {
    assembly: { ...ASSEMBLY, parts: [part] },
    sheets: [SHEET],
    flips: { "sheet-1": { axis: "y", at: 75 } },
    programs: programs.map((each) => ({ ...each, cutters: [cutter] })),
    machine: {
      travel: { x: 600, y: 400, z: 80 },
      bedAllowance: 0.3,
      keepOutHeight: 4,
      maxPlungeMmPerMin: 900,
      dwellUnit: "s",
      spindle: { minRpm: 8000, maxRpm: 24000 },
    },
  };
}
