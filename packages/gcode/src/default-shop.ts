import { CONTROLLERS } from "./controllers.ts";
import type { Cutter, CutterKind } from "./cutter.ts";
import type { CuttingRules, Machine, Pins } from "./machine.ts";
import { PLAN_OPTIONS } from "./plan-options.ts";

/** A dowel pushed in by hand, a board of 18 mm under the sheet. Common practice. */
export const DEFAULT_PINS: Pins = {
  diameter: PLAN_OPTIONS.pins.diameter,
  depth: PLAN_OPTIONS.pins.depth,
  play: 0.05,
};

export const DEFAULT_CUTTING: CuttingRules = {
  direction: PLAN_OPTIONS.direction,
  rampAngle: PLAN_OPTIONS.rampAngle,
  finish: PLAN_OPTIONS.finish,
  clearing: PLAN_OPTIONS.clearing,
  rest: PLAN_OPTIONS.rest,
  score: PLAN_OPTIONS.score,
  hold: PLAN_OPTIONS.hold,
  lead: PLAN_OPTIONS.lead,
};

/** The router of `samples/shop/machine.yaml`: invented, of the size that a garage holds. */
export function defaultMachine(): Machine {
  return {
    name: "garage router",
    travel: { x: 1260, y: 660, z: 95 },
    zZero: "bed",
    safeHeight: 5,
    bedAllowance: 0.5,
    rapidMmPerMin: { xy: 6000, z: 2000 },
    maxFeedMmPerMin: { xy: 5000, z: 1500 },
    accelerationMmPerS2: { xy: 500, z: 300 },
    cornerDeviation: 0.01,
    spindle: { minRpm: 8000, maxRpm: 24_000, powerW: 800, spinUpSeconds: 4 },
    derate: 0.4,
    timing: { acceleration: 1, blockSeconds: 0 },
    clamps: [],
    keepOutHeight: 10,
    pins: DEFAULT_PINS,
    cutting: DEFAULT_CUTTING,
    controller: CONTROLLERS.basic,
  };
}

/** The drawer of `samples/shop/cutters.yaml`. */
export function defaultCutters(): readonly Cutter[] {
  return [
    cutter(1, "up-6", "up-cut", 6, 25, 6),
    cutter(2, "down-6", "down-cut", 6, 22, 6),
    { ...cutter(3, "compression-6", "compression", 6, 22, 6), upCutLength: 5 },
    cutter(4, "up-3", "up-cut", 3.175, 17, 6),
    cutter(5, "up-8", "up-cut", 8, 32, 8),
    { ...cutter(6, "drill-3", "drill", 3.2, 30, 3.2), maxRpm: 12_000 },
    { ...cutter(7, "drill-5", "drill", 5, 40, 5), maxRpm: 12_000 },
    { ...cutter(11, "drill-3-1", "drill", 3.1, 30, 3.1), maxRpm: 12_000 },
    { ...cutter(10, "drill-3-5", "drill", 3.5, 32, 3.5), maxRpm: 12_000 },
    { ...cutter(8, "v-90", "v", 12.7, 6.35, 6), maxRpm: 22_000, angleDeg: 90 },
    {
      ...cutter(9, "round-3", "round-over", 16, 12, 6),
      maxRpm: 22_000,
      cornerRadius: 3,
      bearingDiameter: 9.5,
      bearingHeight: 7,
    },
  ];
}

function cutter(
  number: number,
  id: string,
  kind: CutterKind,
  diameter: number,
  fluteLength: number,
  shankDiameter: number,
): Cutter {
  return {
    id,
    number,
    kind,
    diameter,
    flutes: 2,
    fluteLength,
    shankDiameter,
    holder: { diameter: 24, stickOut: fluteLength + 8 },
    maxRpm: 24_000,
    upCutLength: null,
    cornerRadius: null,
    bearingDiameter: null,
    bearingHeight: null,
    angleDeg: null,
    set: { rpm: null, feedMmPerMin: null, plungeMmPerMin: null, depthPerPass: null, stepover: null },
  };
}
