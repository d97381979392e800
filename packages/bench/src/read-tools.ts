import { lengthIn, oneOf, type Read, readYaml, type Units } from "@dryfit/joinery";
import { z } from "zod";
import type { HandTools } from "./tools.ts";

/** Reads a file of hand tools. `file` is only a name for messages. */
export function readHandTools(text: string, file: string): Read<HandTools> {
  return readYaml(text, file, toolsSchema(unitsOf(text, file)));
}

/** For editors that complete and check while one types. */
export function handToolsJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(toolsSchema("mm"), { io: "input" });
}

/** By hand in plywood, a pass of half the cutter's diameter, at most 6 mm: common practice, no source. */
const PASS_SHARE = 0.5;
const DEEPEST_PASS_MM = 6;

/** A thin carbide blade, and an edge that a sheet can spare: common practice, no source. */
const SAW = { kerf: 2.4, trim: 10, stages: 3 } as const;

function toolsSchema(units: Units): z.ZodType<HandTools> {
  const length = lengthIn(units);
  const id = z
    .string("a name")
    .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "a name of small letters, digits and -, at most 40 of them");
  const bearing = z.strictObject({ diameter: length(3, 80), at: oneOf(["tip", "shank"]) });
  const cutter = z
    .strictObject({
      id,
      kind: oneOf(["straight", "slotting"]).default("straight"),
      diameter: length(1.5, 80),
      cuttingLength: length(1, 120),
      reach: length(2, 160),
      arbor: length(4, 40).nullable().default(null),
      depthPerPass: length(0.5, 20).nullable().default(null),
      bearings: z.array(bearing, "a list of bearings").default([]),
    })
    .superRefine((c, context) => {
      if (c.kind === "slotting" && c.arbor === null)
        context.addIssue({
          code: "custom",
          path: ["arbor"],
          message: "a length: a slotting disc sits on an arbor",
        });
    })
    .transform((c) => ({
      ...c,
      depthPerPass: c.depthPerPass ?? Math.min(PASS_SHARE * c.diameter, DEEPEST_PASS_MM),
    }));
  const named = [
    ["cutters", "cutters"],
    ["bushes", "bushes"],
    ["baseEdges", "base edges"],
  ] as const;
  return z
    .strictObject({
      name: z.string("a name").default("hand router"),
      units: oneOf(["mm", "in"]).optional(),
      baseEdges: z
        .array(z.strictObject({ id, toMiddle: length(20, 200) }), "a list of base edges")
        .min(1, "one base edge or more: from it every fence is set"),
      table: z.boolean("true or false").default(false),
      cutters: z
        .array(cutter, "a list of cutters")
        .min(1, "one cutter or more")
        .max(99, "99 cutters at most"),
      bushes: z
        .array(
          z.strictObject({ id, diameter: length(5, 80), projection: length(1, 40) }),
          "a list of guide bushes",
        )
        .max(99, "99 guide bushes at most")
        .default([]),
      template: z.strictObject({
        thickness: length(3, 30),
        running: length(0, 1).default(0.15),
        margin: length(15, 150).default(40),
      }),
      saw: z
        .strictObject({
          kerf: length(0, 10).default(SAW.kerf),
          trim: length(0, 100).default(SAW.trim),
          stages: z.literal([2, 3, 4], "2, 3 or 4").default(SAW.stages),
        })
        .default(SAW),
      laser: z
        .strictObject({ kerf: length(0, 1), allowance: oneOf(["drawn", "service"]) })
        .default({ kerf: 0, allowance: "service" }),
    })
    .superRefine((tools, context) => {
      for (const [key, words] of named) {
        tools[key].forEach((one, k) => {
          if (tools[key].findIndex((other) => other.id === one.id) < k)
            context.addIssue({
              code: "custom",
              path: [key, k, "id"],
              message: `a name that no other of the ${words} has`,
            });
        });
      }
    })
    .transform(({ units: _, ...tools }) => tools);
}

/** Bare numbers cannot be read before their unit is known; whatever is wrong with it, the full schema says. */
function unitsOf(text: string, file: string): Units {
  return readYaml(text, file, z.looseObject({ units: z.literal("in") })).ok ? "in" : "mm";
}
