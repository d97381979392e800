import { lengthIn, oneOf, type Units } from "@dryfit/joinery";
import { z } from "zod";
import type { CuttingRules } from "./machine.ts";
import { type Hold, PLAN_OPTIONS } from "./plan-options.ts";
import { numberOf } from "./schema-values.ts";

/** The group `cutting` of a machine file: what is left out, is as shipped. */
export function cuttingSchema(units: Units): z.ZodType<CuttingRules> {
  const length = lengthIn(units);
  const { direction, rampAngle, score, lead } = PLAN_OPTIONS;
  const way = oneOf(["climb", "conventional"]);
  return z
    .strictObject({
      direction: way.default(direction),
      rampDeg: numberOf("degrees", 0.5, 45).default(Math.round((rampAngle * 180) / Math.PI)),
      finish: z
        .strictObject({
          allowance: length(0.05, 3).default(0.3),
          roughing: way.default("conventional"),
        })
        .nullable()
        .default(null),
      clearing: z
        .strictObject({
          method: oneOf(["auto", "contour", "raster", "engagement"]).default("auto"),
          engagementDeg: numberOf("degrees", 15, 180).nullable().default(null),
        })
        .default({ method: "auto", engagementDeg: null })
        .transform(({ method, engagementDeg }) => ({
          method,
          engagement: engagementDeg === null ? null : (engagementDeg * Math.PI) / 180,
        })),
      rest: oneOf(["auto", "always", "never"]).default("auto"),
      score: length(0, 3).default(score),
      hold: holdSchema(units).default(TABS),
      lead: length(0, 20).default(lead),
    })
    .transform(({ rampDeg, ...rules }) => ({ ...rules, rampAngle: (rampDeg * Math.PI) / 180 }));
}

function holdSchema(units: Units) {
  const length = lengthIn(units);
  const tabs = z.strictObject({
    kind: z.literal("tabs"),
    width: length(1, 50).default(TABS.width),
    height: length(0.2, 20).default(TABS.height),
    every: length(50, 5000).default(TABS.every),
  });
  const skin = z.strictObject({
    kind: z.literal("skin"),
    height: length(0.1, 3).default(0.4),
    finalPass: z.boolean("true or false").default(true),
  });
  return z.union(
    [tabs, skin],
    "{ kind: tabs, width, height, every } or { kind: skin, height, finalPass }",
  ) as unknown as z.ZodType<Hold, Hold>;
}

const TABS = PLAN_OPTIONS.hold as Hold & { kind: "tabs" };
