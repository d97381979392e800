import { z } from "zod";

/** A number within limits, with a unit in words for the message: "mm/min from 10 to 60000". */
export function numberOf(what: string, least: number, most: number): z.ZodNumber {
  const allowed = `${what} from ${least} to ${most}`;
  return z.number(allowed).min(least, allowed).max(most, allowed);
}

export function wholeNumber(what: string, least: number, most: number): z.ZodNumber {
  const allowed = `${what}, a whole number from ${least} to ${most}`;
  return z.int(allowed).min(least, allowed).max(most, allowed);
}
