import { z } from "zod";
import type { Units } from "./design.ts";
import { formatLength, lengthInMm } from "./length.ts";

/** A length within limits, mm after reading: a bare number is in `units`, text may name a unit of its own. */
export function lengthIn(units: Units): (least: number, most: number) => z.ZodType<number, number | string> {
  return (least, most) => {
    const example = units === "mm" ? "6, 3.175 mm or 1/8 in" : "1/4, 0.236 in or 6mm";
    const allowed = `a length from ${formatLength(least, units)} to ${formatLength(most, units)}, such as ${example}`;
    return z.union([z.number(), z.string()], allowed).transform((value, context): number => {
      const mm = lengthInMm(value, units);
      if (mm !== null && mm >= least && mm <= most) return mm;
      context.issues.push({ code: "custom", message: allowed, input: value });
      return z.NEVER;
    });
  };
}

export function oneOf<const T extends readonly [string, ...string[]]>(
  values: T,
): z.ZodType<T[number], T[number]> {
  return z.enum(values, values.join(", ")) as unknown as z.ZodType<T[number], T[number]>;
}
