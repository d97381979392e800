/**
 * Power that the spindle must give, W, for a cut `width` × `depth` mm at `feedMmPerMin`.
 * Source: P = k a_e a_p v / 60 000; published k for particleboard 32 to 38 N/mm², plywood taken as 40.
 */
export function cuttingPowerW(
  width: number,
  depth: number,
  feedMmPerMin: number,
  newtonPerMm2: number = WOOD_N_PER_MM2,
): number {
  return (newtonPerMm2 * width * depth * feedMmPerMin) / 60_000;
}

/** Speed of the cutter's rim, m/s. */
export function rimSpeed(diameter: number, rpm: number): number {
  return (Math.PI * diameter * rpm) / 60_000;
}

/** Cutting force of wood per area of chip. Published for particleboard; plywood 20 to 60 from trade pages. */
const WOOD_N_PER_MM2 = 40;

/** A spindle should have this many times the power of the cut. Common practice. */
export const POWER_MARGIN = 2;

/** Above this a small-shank cutter is overstressed, m/s. Source: one published guide (100 mph). */
export const RIM_SPEED_LIMIT = 45;

/** The most rpm that published guides give for a router cutter of this diameter. */
export function guideRpm(diameter: number): number {
  return GUIDE_RPM.find(([upTo]) => diameter <= upTo)?.[1] ?? 8_000;
}

const GUIDE_RPM: readonly (readonly [upTo: number, rpm: number])[] = [
  [25, 22_000],
  [50, 18_000],
  [63, 12_000],
];
