import { readFileSync } from "node:fs";
import type { OutFile } from "@dryfit/job";
import { type Assembly, type Design, recipe } from "@dryfit/joinery";
import fc from "fast-check";
import { anyController } from "./any-program.ts";

/** Of the pins that a turned sheet is found again by, mm. */
const PIN = 6;

/** The shipped router, large enough for every sheet that random designs name. */
export const WIDE_MACHINE: OutFile = {
  file: "machine.yaml",
  text: readFileSync(new URL("../samples/shop/machine.yaml", import.meta.url), "utf8").replace(
    /travel: .*/,
    "travel: { x: 2600, y: 2600, z: 95 }",
  ),
};

/** A number with two decimals, as a maker writes it. */
const figure = (min: number, max: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(100 * min), max: Math.round(100 * max) })
    .map((hundredths) => hundredths / 100);
const way = fc.constantFrom("climb", "conventional");

/** `held`: whether recesses may be cleared with a held engagement, whose paths are long to plan and to prove. */
const anyCutting = (held: boolean) =>
  fc.record({
    direction: way,
    rampDeg: figure(1.5, 8),
    finish: fc.oneof(fc.constant(null), fc.record({ allowance: figure(0.15, 0.5), roughing: way })),
    clearing: fc.record({
      // One router in nine asks for a held engagement, and few for thin chips.
      method: fc.constantFrom(
        ...["auto", "auto", "auto", "contour", "contour", "contour", "raster", "raster"],
        ...(held ? ["engagement"] : []),
      ),
      engagementDeg: held
        ? fc.oneof(
            { arbitrary: fc.constant(null), weight: 3 },
            { arbitrary: fc.integer({ min: 100, max: 180 }), weight: 1 },
          )
        : fc.constant(null),
    }),
    score: fc.oneof(fc.constant(0), figure(0.2, 0.8)),
    hold: fc.oneof(
      fc.record({
        kind: fc.constant("tabs"),
        width: figure(3, 8),
        height: figure(0.8, 2.5),
        every: figure(200, 600),
      }),
      fc.record({ kind: fc.constant("skin"), height: figure(0.2, 0.5), finalPass: fc.boolean() }),
    ),
    lead: figure(0, 2),
  });

/** A router of any make, wide enough for every sheet: any controller, any way of cutting, light or stiff, slow or quick. */
export const anyMachine = (held: boolean): fc.Arbitrary<OutFile> =>
  fc
    .record({
      zZero: fc.constantFrom("bed", "top"),
      safeHeight: figure(3, 12),
      bedAllowance: figure(0.2, 1),
      rapidMmPerMin: fc.record({ xy: figure(3000, 20_000), z: figure(1000, 6000) }),
      maxFeedMmPerMin: fc.record({ xy: figure(3000, 15_000), z: figure(800, 4000) }),
      accelerationMmPerS2: fc.record({ xy: figure(200, 3000), z: figure(100, 2000) }),
      cornerDeviation: figure(0.01, 0.05),
      derate: figure(0.3, 1),
      keepOutHeight: figure(4, 20),
      pins: fc.record({ diameter: fc.constant(PIN), depth: figure(4, 10), play: figure(0, 0.1) }),
      cutting: anyCutting(held),
      controller: anyController,
    })
    .map((given) => {
      const spindle = { minRpm: 8000, maxRpm: 24_000, powerW: 2200, spinUpSeconds: 4 };
      const fixed = { name: "any router", units: "mm", travel: { x: 2600, y: 2600, z: 120 }, spindle };
      // YAML holds all of JSON.
      return { file: "machine.yaml", text: `${JSON.stringify({ ...fixed, ...given }, null, 1)}\n` };
    });

/** A drawer for one design: an end mill of the design's own width, a drill for every hole and for the pins, edge cutters. */
export function drawerFor(design: Design): OutFile {
  const drills = [...new Set([PIN, ...boreDiameters(recipe(design))])].map(
    (diameter, i) =>
      `  - { id: drill-${i + 1}, number: ${i + 2}, kind: drill, diameter: ${diameter}, flutes: 2, fluteLength: 60, shankDiameter: ${diameter}, maxRpm: 12000 }`,
  );
  return {
    file: "cutters.yaml",
    text: [
      "units: mm",
      "cutters:",
      `  - { id: mill, number: 1, kind: up-cut, diameter: ${design.cutter}, flutes: 2, fluteLength: 30, shankDiameter: ${design.cutter}, maxRpm: 24000 }`,
      ...drills,
      ...[1, 2, 3].map(
        (radius) =>
          `  - { id: round-${radius}, number: ${90 + radius}, kind: round-over, diameter: ${9.5 + 2 * radius}, flutes: 2, fluteLength: 12, shankDiameter: 6, maxRpm: 22000, cornerRadius: ${radius}, bearingDiameter: 9.5, bearingHeight: 3 }`,
      ),
      "  - { id: v-90, number: 99, kind: v, diameter: 12.7, flutes: 2, fluteLength: 6.35, shankDiameter: 6, maxRpm: 22000, angleDeg: 90 }",
      "",
    ].join("\n"),
  };
}

function boreDiameters({ parts }: Assembly): number[] {
  return parts.flatMap(({ features }) => features.flatMap((f) => (f.kind === "bore" ? [f.diameter] : [])));
}
