import { lengthIn, oneOf, type Units } from "@dryfit/joinery";
import { z } from "zod";
import { CONTROLLERS } from "./controllers.ts";
import { cuttingSchema } from "./cutting-schema.ts";
import { DEFAULT_CUTTING, DEFAULT_PINS } from "./default-shop.ts";
import type { Controller, Machine } from "./machine.ts";
import { numberOf, wholeNumber } from "./schema-values.ts";

/** The schema of a machine file whose bare lengths are in `units`; keys are those of `Machine`. Strict everywhere. */
export function machineSchema(units: Units): z.ZodType<Machine> {
  const length = lengthIn(units);
  const perMin = numberOf("mm/min", 10, 100_000);
  const axes = <T extends z.ZodType>(value: T) => z.strictObject({ xy: value, z: value });
  return z
    .strictObject({
      name: z.string("a name in plain words").min(1).max(60),
      units: oneOf(["mm", "in"]).optional(),
      travel: z.strictObject({ x: length(50, 10_000), y: length(50, 10_000), z: length(20, 1000) }),
      zZero: oneOf(["bed", "top"]).default("bed"),
      safeHeight: length(1, 100).default(5),
      bedAllowance: length(0, 5).default(0.5),
      rapidMmPerMin: axes(perMin),
      maxFeedMmPerMin: axes(perMin),
      accelerationMmPerS2: axes(numberOf("mm/s²", 1, 50_000)),
      cornerDeviation: length(0.001, 1).default(0.01),
      spindle: z
        .strictObject({
          minRpm: wholeNumber("rpm", 0, 100_000),
          maxRpm: wholeNumber("rpm", 1, 100_000),
          powerW: numberOf("watts", 10, 50_000),
          spinUpSeconds: numberOf("seconds", 0, 120).default(4),
        })
        .refine(({ minRpm, maxRpm }) => minRpm <= maxRpm, "minRpm at most maxRpm"),
      derate: numberOf("a share", 0.1, 1).default(0.4),
      timing: z
        .strictObject({
          acceleration: numberOf("a factor", 0.01, 10).default(1),
          blockSeconds: numberOf("seconds", 0, 1).default(0),
        })
        .default({ acceleration: 1, blockSeconds: 0 }),
      clamps: z
        .array(
          z.tuple(
            [length(0, 10_000), length(0, 10_000), length(1, 10_000), length(1, 10_000)],
            "four lengths: [left, bottom, width, height]",
          ),
          "places on the bed where clamps stand: [left, bottom, width, height]",
        )
        .max(100, "100 clamps at most")
        .default([]),
      keepOutHeight: length(0, 200).default(10),
      pins: z
        .strictObject({
          diameter: length(2, 20).default(DEFAULT_PINS.diameter),
          depth: length(0, 50).default(DEFAULT_PINS.depth),
          play: length(0, 2).default(DEFAULT_PINS.play),
        })
        .default(DEFAULT_PINS),
      cutting: cuttingSchema(units).default(DEFAULT_CUTTING),
      controller: controllerSchema().default(CONTROLLERS.basic),
    })
    .transform(({ units: _, ...machine }) => machine);
}

/** A shipped set by its name, or one with changes: `{ like: basic, decimals: 4 }`. */
function controllerSchema() {
  const flag = z.boolean("true or false").optional();
  const changes = z
    .strictObject({
      like: oneOf(["basic", "full"]).default("basic"),
      arcs: flag,
      helix: flag,
      fullCircle: flag,
      cannedDrilling: flag,
      cutterChange: oneOf(["in-program", "pause", "separate-files"]).optional(),
      lengthTable: flag,
      comments: oneOf(["parentheses", "semicolon", "none"]).optional(),
      lineNumbers: flag,
      dwellUnit: oneOf(["s", "ms"]).optional(),
      decimals: wholeNumber("decimals", 3, 5).optional(),
      pathMode: oneOf(["none", "G61", "G64"]).optional(),
      maxLineLength: wholeNumber("letters", 70, 256).optional(),
      percentMarks: flag,
      spindleControl: flag,
      workOffset: oneOf(["G54", "G55", "G56", "G57", "G58", "G59", "none"]).optional(),
      programEnd: oneOf(["M2", "M30"]).optional(),
    })
    .transform(({ like, ...flags }): Controller => {
      const given = Object.entries(flags).filter(([, value]) => value !== undefined);
      return { ...CONTROLLERS[like], ...Object.fromEntries(given) };
    });
  const named = oneOf(["basic", "full"]).transform((name) => CONTROLLERS[name]);
  return z.union([named, changes], "basic, full, or a group of flags such as { like: basic, decimals: 4 }");
}
