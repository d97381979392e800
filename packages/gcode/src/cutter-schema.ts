import { lengthIn, oneOf, type Units } from "@dryfit/joinery";
import { z } from "zod";
import type { Cutter } from "./cutter.ts";
import { numberOf, wholeNumber } from "./schema-values.ts";

/** The schema of a cutter file whose bare lengths are in `units`; keys are those of `Cutter`. Strict everywhere. */
export function cuttersSchema(units: Units): z.ZodType<readonly Cutter[]> {
  return z
    .strictObject({
      units: oneOf(["mm", "in"]).optional(),
      cutters: z
        .array(cutterSchema(units), "a list of cutters")
        .min(1, "one cutter or more")
        .max(99, "99 cutters at most"),
    })
    .superRefine(({ cutters }, context) => {
      for (const key of ["id", "number"] as const) {
        cutters.forEach((cutter, k) => {
          const first = cutters.findIndex((other) => other[key] === cutter[key]);
          if (first === k) return;
          context.addIssue({
            code: "custom",
            path: ["cutters", k, key],
            message: `a value that no other cutter has; cutters[${first}] has this one`,
          });
        });
      }
    })
    .transform(({ cutters }) => cutters);
}

function cutterSchema(units: Units) {
  const length = lengthIn(units);
  const perMin = numberOf("mm/min", 1, 100_000).nullable().default(null);
  return z
    .strictObject({
      id: z
        .string("a name")
        .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "a name of small letters, digits and -, at most 40 of them"),
      number: wholeNumber("the T number", 1, 99_999),
      kind: oneOf(["up-cut", "down-cut", "compression", "straight", "drill", "round-over", "v"]),
      diameter: length(0.2, 100),
      flutes: wholeNumber("flutes", 1, 12).default(2),
      fluteLength: length(0.5, 200),
      shankDiameter: length(1, 30),
      holder: z
        .strictObject({ diameter: length(5, 120), stickOut: length(2, 300) })
        .nullable()
        .default(null),
      maxRpm: wholeNumber("rpm", 100, 100_000),
      upCutLength: length(0.1, 100).nullable().default(null),
      cornerRadius: length(0.2, 50).nullable().default(null),
      bearingDiameter: length(1, 60).nullable().default(null),
      bearingHeight: length(0, 60).nullable().default(null),
      angleDeg: numberOf("degrees", 20, 150).nullable().default(null),
      set: z
        .strictObject({
          rpm: wholeNumber("rpm", 1, 100_000).nullable().default(null),
          feedMmPerMin: perMin,
          plungeMmPerMin: perMin,
          depthPerPass: length(0.05, 100).nullable().default(null),
          stepover: length(0.01, 100).nullable().default(null),
        })
        .default({ rpm: null, feedMmPerMin: null, plungeMmPerMin: null, depthPerPass: null, stepover: null }),
    })
    .superRefine((cutter, context) => {
      for (const [key, kind] of NEEDED) {
        if (cutter.kind === kind && cutter[key] === null)
          context.addIssue({ code: "custom", path: [key], message: `a length: a ${kind} cutter has one` });
      }
    });
}

/** What only some kinds have, and then must. */
const NEEDED = [
  ["upCutLength", "compression"],
  ["cornerRadius", "round-over"],
  ["bearingDiameter", "round-over"],
] as const;
