import { readFileSync } from "node:fs";
import type { OutFile } from "@dryfit/job";
import { type Assembly, type Design, recipe } from "@dryfit/joinery";

/** The shipped router, large enough for every sheet that random designs name. */
export const WIDE_MACHINE: OutFile = {
  file: "machine.yaml",
  text: readFileSync(new URL("../samples/shop/machine.yaml", import.meta.url), "utf8").replace(
    /travel: .*/,
    "travel: { x: 2600, y: 2600, z: 95 }",
  ),
};

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

/** Of the pins that a turned sheet is found again by, mm. */
const PIN = 6;

function boreDiameters({ parts }: Assembly): number[] {
  return parts.flatMap(({ features }) => features.flatMap((f) => (f.kind === "bore" ? [f.diameter] : [])));
}
