import { formatLength, mmPerInch, type Units } from "@dryfit/joinery";
import type { Measure } from "../case/view-spec.ts";

/** A value as it stands on the drawing: the unit is said once, in the title block. Inches as fractions to 1/32. */
export function figureText(value: number, measure: Measure, units: Units): string {
  if (measure === "angle") return `${decimal(value, 1)}°`;
  if (measure === "count") return decimal(value, 0);
  return units === "mm" ? decimal(value, 2) : inches(value);
}

/** The same to the last digit: what is there to be changed, and what hovering shows. */
export function exactText(value: number, measure: Measure, units: Units): string {
  if (measure !== "length") return decimal(value, 3);
  if (units === "mm") return decimal(value, 4);
  const exact = formatLength(value, "in").replace(/ in$/, "");
  return exact;
}

/** With its unit, for sentences and for people who hear the drawing. */
export function spokenText(value: number, measure: Measure, units: Units): string {
  const text = exactText(value, measure, units);
  if (measure === "angle") return `${text} degrees`;
  return measure === "count" ? text : `${text} ${units === "mm" ? "millimetres" : "inches"}`;
}

function inches(mm: number): string {
  const parts = Math.round((mm / mmPerInch) * 32);
  const isSmall = Math.abs(mm) < mmPerInch / 32;
  // A clearance of a few hundredths is no fraction to 1/32.
  if (isSmall || (parts === 0 && mm !== 0)) return decimal(mm / mmPerInch, 4);
  return formatLength((parts * mmPerInch) / 32, "in").replace(/ in$/, "");
}

function decimal(value: number, digits: number): string {
  return String(Number(value.toFixed(digits)) + 0);
}
