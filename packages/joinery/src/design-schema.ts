import { z } from "zod";
import type { Units } from "./design.ts";
import type { DesignInput } from "./design-input.ts";
import { formatLength, lengthInMm } from "./length.ts";
import { type PresetName, presetNames, presets } from "./presets.ts";

/** The schema of a design file whose bare numbers are in `units`. Unknown keys are refused everywhere. */
export function designSchema(units: Units): z.ZodType<DesignInput, unknown> {
  const length = lengthIn(units);
  const size = length(0.5, 3000);
  const angle = (least: number, most: number) =>
    z
      .number(`degrees from ${least} to ${most}`)
      .min(least, `degrees from ${least} to ${most}`)
      .max(most, `degrees from ${least} to ${most}`);
  const count = (least: number, most: number) =>
    z
      .int(`a whole number from ${least} to ${most}`)
      .min(least, `a whole number from ${least} to ${most}`)
      .max(most, `a whole number from ${least} to ${most}`);
  const name = z
    .string("a name")
    .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "a name of small letters, digits and -, at most 40 of them");
  const measure = z.number("a number").positive("a number over 0").max(1e6, "a number up to 1000000");

  const readings = z
    .array(length(3, 40), "a length, or a list of caliper readings")
    .min(1, "one reading or more")
    .max(50, "50 readings at most");
  const thickness = z.union(
    [length(3, 40), readings],
    `${lengthWords(3, 40, units)}, or a list of caliper readings`,
  );
  const pair = z.tuple([length(50, 5000), length(50, 5000)], "two lengths: [x, y]");
  const rectangle = z.tuple(
    [length(0, 5000), length(0, 5000), length(1, 5000), length(1, 5000)],
    "four lengths: [left, bottom, width, height]",
  );
  const sheetSize = z.union(
    [
      pair,
      z.strictObject({
        id: name.optional(),
        size: pair,
        grain: z.enum(["x", "y"]).optional(),
        count: count(0, 1000).nullable().optional(),
        price: measure.nullable().optional(),
        avoid: z.array(rectangle).optional(),
      }),
    ],
    "[x, y], or a group of the keys id, size, grain, count, price, avoid",
  );
  const foot = z.strictObject({
    drop: length(0, 300).optional(),
    length: length(5, 1000).optional(),
    angle: angle(20, 90).optional(),
    radius: length(0, 200).optional(),
  });
  const tier = z.strictObject({
    slats: count(1, 20),
    slat: length(15, 500),
    gap: length(0, 200).optional(),
    height: length(10, 500).optional(),
    clearance: length(0, 10).optional(),
    swing: angle(0, 180).optional(),
    pin: length(0.5, 20).optional(),
    bearers: z
      .strictObject({
        count: count(0, 6).optional(),
        inset: length(5, 1000).optional(),
        air: length(0, 10).optional(),
      })
      .optional(),
    cleat: z.strictObject({ height: length(8, 200).optional() }).optional(),
    screw: length(2, 8).optional(),
  });
  const from = z.strictObject({
    left: length(0, 3000).optional(),
    right: length(0, 3000).optional(),
    front: length(0, 3000).optional(),
    back: length(0, 3000).optional(),
    top: length(0, 3000).optional(),
    bottom: length(0, 3000).optional(),
    floor: length(0, 3000).optional(),
  });
  const opening = z
    .strictObject({
      id: name.optional(),
      panel: z.string("the name of a panel"),
      shape: z.enum(presetNames),
      size: z.record(z.string(), z.union([z.number(), z.string()], "a length")).optional(),
      from,
      turn: z
        .union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)], "0, 90, 180 or 270 degrees")
        .optional(),
    })
    .transform((given, ctx) => ({
      ...given,
      size: measuresOf(given.shape, given.size ?? {}, units, ctx.issues),
    }));
  const edge = z.strictObject({
    panel: z.string("the name of a panel"),
    edge: z.string("the name of an edge"),
    radius: length(0.5, 50),
    faces: z.enum(["both", "A", "B"]).optional(),
  });

  return z.strictObject({
    dryfit: z.literal(1, "1, the version of the design file"),
    name,
    units: z.enum(["mm", "in"]).optional(),
    inside: z.strictObject({ width: size, depth: size, front: size, back: size }),
    sheet: z.strictObject({
      name: z.string("a name").min(1).max(60).optional(),
      thickness,
      sizes: z
        .array(sheetSize, "a list of sheet sizes: [[x, y], …]")
        .min(1, "one size or more")
        .max(50, "50 sizes at most"),
      grain: z.enum(["x", "y"]).optional(),
      margin: length(0, 200).optional(),
      web: length(0, 100).optional(),
      density: measure.optional(),
      modulus: measure.optional(),
    }),
    joint: z
      .strictObject({
        rails: z.enum(["inner", "full", "fewest-flips"]).optional(),
        tongue: z
          .strictObject({ thickness: length(1, 30).optional(), length: length(1, 30).optional() })
          .optional(),
        clearance: z.strictObject({ side: length(0, 2).optional(), end: length(0, 5).optional() }).optional(),
        stop: length(1, 50).optional(),
        piece: length(1, 100).optional(),
      })
      .optional(),
    cutter: length(0.5, 25).optional(),
    cheek: z
      .strictObject({
        crest: z
          .strictObject({
            form: z.enum(["straight", "arc", "batten"]).optional(),
            through: z.strictObject({ at: size, height: size }).optional(),
            above: length(-100, 200).optional(),
          })
          .optional(),
        feet: z.strictObject({ front: foot.optional(), back: foot.optional() }).optional(),
        overhang: z
          .strictObject({ front: length(0, 200).optional(), back: length(0, 200).optional() })
          .optional(),
      })
      .optional(),
    tier: tier.nullable().optional(),
    openings: z.array(opening, "a list of openings").max(200, "200 openings at most").optional(),
    edges: z.array(edge, "a list of edges").max(200, "200 edges at most").optional(),
  });
}

/** A length within limits: a number in `units`, or text with a unit of its own. The limits are mm. */
function lengthIn(units: Units) {
  return (least: number, most: number) => {
    const limits = lengthWords(least, most, units);
    return z.union([z.number(), z.string()], limits).transform((value, ctx): number => {
      const mm = lengthInMm(value, units);
      if (mm !== null && mm >= least - 1e-9 && mm <= most + 1e-9) return mm;
      ctx.issues.push({ code: "custom", message: limits, input: value });
      return z.NEVER;
    });
  };
}

function lengthWords(least: number, most: number, units: Units): string {
  const example = units === "mm" ? "540, 12.7 mm or 1/2 in" : "21 1/4, 1/2 in or 12mm";
  return `a length from ${formatLength(least, units)} to ${formatLength(most, units)}, such as ${example}`;
}

type Issues = z.core.ParsePayload["issues"];

/** The measures of a preset, those of the file before the preset's own; mm, but for counts. */
function measuresOf(
  shape: PresetName,
  given: Readonly<Record<string, number | string>>,
  units: Units,
  issues: Issues,
): Readonly<Record<string, number | "cutter">> {
  const known: Readonly<Record<string, number | null | "cutter">> = presets[shape].size;
  const wrong = (key: string, message: string): void => {
    issues.push({ code: "custom", message, input: given[key], path: ["size", key] });
  };
  for (const key of Object.keys(given)) {
    if (!(key in known)) wrong(key, `the measures of ${shape}: ${Object.keys(known).join(", ")}`);
  }
  const measures: Record<string, number | "cutter"> = {};
  for (const [key, preset] of Object.entries(known)) {
    const own = given[key] ?? preset;
    if (own === "cutter" && given[key] === undefined) measures[key] = own;
    else if (own === null) wrong(key, `a length: ${shape} has no size of its own`);
    else if (key === "count") {
      if (typeof own === "number" && Number.isInteger(own) && own >= 1 && own <= 50) measures[key] = own;
      else wrong(key, "a whole number from 1 to 50");
    } else {
      const mm = given[key] === undefined ? Number(own) : lengthInMm(own, units);
      if (mm !== null && mm >= 0 && mm <= 3000) measures[key] = mm;
      else wrong(key, `a length from 0 to ${formatLength(3000, units)}`);
    }
  }
  return measures;
}
