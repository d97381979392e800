import { z } from "zod";
import type { Units } from "./design.ts";
import { formatLength, lengthInMm } from "./length.ts";

/** A value of a design file; every message says what is allowed, every description what it means. */
export type Field<T> = z.ZodType<T, unknown>;

/** Lengths within limits: a number in `units`, or text with a unit of its own. Limits and result are mm. */
export function lengthsIn(units: Units): (least: number, most: number, about: string) => Field<number> {
  return (least, most, about) => {
    const limits = lengthWords(least, most, units);
    return z
      .union([z.number(), z.string()], limits)
      .transform((value, ctx): number => {
        const mm = lengthInMm(value, units);
        if (mm !== null && mm >= least - 1e-9 && mm <= most + 1e-9) return mm;
        ctx.issues.push({ code: "custom", message: limits, input: value });
        return z.NEVER;
      })
      .describe(about);
  };
}

export function angle(least: number, most: number, about: string): Field<number> {
  const limits = `degrees from ${least} to ${most}`;
  return z.number(limits).min(least, limits).max(most, limits).describe(about);
}

export function count(least: number, most: number, about: string): Field<number> {
  const limits = `a whole number from ${least} to ${most}`;
  return z.int(limits).min(least, limits).max(most, limits).describe(about);
}

/** A name that can stand in file names, layers and paths. */
export function name(about: string): Field<string> {
  return z
    .string("a name")
    .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "a name of small letters, digits and -, at most 40 of them")
    .describe(about);
}

export function measure(about: string): Field<number> {
  const limits = "a number over 0, at most 1000000";
  return z.number(limits).positive(limits).max(1e6, limits).describe(about);
}

export function list<T>(item: Field<T>, most: number, about: string, least = 0): Field<T[]> {
  const limits = `a list of ${least} to ${most}: ${about}`;
  return z.array(item, limits).min(least, limits).max(most, limits).describe(about);
}

export function lengthWords(least: number, most: number, units: Units): string {
  const example = units === "mm" ? "540, 12.7 mm or 1/2 in" : "21 1/4, 1/2 in or 12mm";
  return `a length from ${formatLength(least, units)} to ${formatLength(most, units)}, such as ${example}`;
}
