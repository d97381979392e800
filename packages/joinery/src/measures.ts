import type { z } from "zod";
import type { Units } from "./design.ts";
import { formatLength, lengthInMm } from "./length.ts";
import { presets, type ShapeName } from "./presets.ts";

type Issues = z.core.ParsePayload["issues"];

/**
 * The measures of a cutout, those of the file before the preset's own: mm, but for counts.
 * What is wrong is pushed onto `issues`.
 */
export function measuresOf(
  shape: ShapeName,
  given: Readonly<Record<string, number | string>>,
  units: Units,
  issues: Issues,
): Readonly<Record<string, number | "cutter">> {
  const known = presets[shape].size;
  const wrong = (key: string, message: string): void => {
    issues.push({ code: "custom", message, input: given[key], path: ["size", key] });
  };
  for (const key of Object.keys(given)) {
    if (!Object.hasOwn(known, key)) wrong(key, `the measures of ${shape}: ${Object.keys(known).join(", ")}`);
  }
  const measures: Record<string, number | "cutter"> = {};
  for (const [key, preset] of Object.entries(known)) {
    const own = given[key];
    const value = own === undefined ? preset : key === "count" ? countOf(own) : lengthOf(own, units);
    if (value !== null) measures[key] = value;
    else if (own === undefined) wrong(key, `a length: ${shape} has no size of its own`);
    else
      wrong(
        key,
        key === "count" ? "a whole number from 1 to 50" : `a length from 0 to ${formatLength(3000, units)}`,
      );
  }
  return measures;
}

function countOf(value: number | string): number | null {
  return typeof value === "number" && Number.isInteger(value) && value >= 1 && value <= 50 ? value : null;
}

function lengthOf(value: number | string, units: Units): number | null {
  const mm = lengthInMm(value, units);
  return mm !== null && mm >= 0 && mm <= 3000 ? mm : null;
}
