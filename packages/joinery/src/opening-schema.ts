import { z } from "zod";
import type { Units } from "./design.ts";
import type { OpeningInput } from "./design-input.ts";
import { measuresOf } from "./measures.ts";
import { presetNames, type ShapeName } from "./presets.ts";
import { type Field, lengthsIn, name } from "./schema-fields.ts";

/** A cutout: a preset or the contours of a drawing. */
export function openingSchema(units: Units): Field<OpeningInput> {
  const length = lengthsIn(units);
  const edge = (about: string) => length(0, 3000, `From ${about} to the middle.`).optional();
  return z
    .strictObject({
      id: name("Its name on drawings.").optional(),
      panel: z
        .string("the name of a panel")
        .describe("cheek-left, cheek-right, base, rail-front, rail-back, slat-1 …"),
      shape: z.enum(presetNames).optional().describe("What is cut. Or give the file of a drawing."),
      ...drawingFields(),
      size: z
        .record(z.string(), z.union([z.number(), z.string()], "a length"))
        .optional()
        .describe("Measures to change; check them against the part in your hand."),
      from: z.strictObject({
        left: edge("the left"),
        right: edge("the right"),
        front: edge("the front"),
        back: edge("the back"),
        top: edge("the top"),
        bottom: edge("the bottom"),
        floor: edge("the inside floor, up"),
      }),
      turn: quarterTurn().optional().describe("Counter-clockwise, seen from face A."),
      relief: z
        .enum(["none", "diagonal", "along-width", "along-height"])
        .optional()
        .describe(
          "Room for a square part in corners that the cutter leaves round: across each corner, or along one wall. none where left out.",
        ),
    })
    .superRefine((given, context) => {
      const drawn = given.file !== undefined;
      if (!drawn) onlyWithFile(given, context);
      if (drawn === (given.shape !== undefined))
        context.addIssue({
          code: "custom",
          path: ["shape"],
          message: drawn
            ? "nothing beside a drawing's file"
            : presetNames.map((one) => `"${one}"`).join(", "),
        });
      if (given.scale === "fit")
        context.addIssue({ code: "custom", path: ["scale"], message: "a number: only a crest is fitted" });
    })
    .transform((given, ctx) => {
      const shape: ShapeName = given.shape ?? "drawing";
      return { ...given, shape, size: measuresOf(shape, given.size ?? {}, units, ctx.issues) };
    });
}

/** Keys of one shape in an opening and in the crest. */
interface DrawingFields {
  readonly file: z.ZodOptional<z.ZodType<string>>;
  readonly units: z.ZodOptional<z.ZodType<"mm" | "in" | "px">>;
  readonly scale: z.ZodOptional<z.ZodType<number | "fit">>;
  readonly layer: z.ZodOptional<z.ZodType<string>>;
}

/** A file of somebody's own drawing, and what it does not say itself. */
export function quarterTurn(): z.ZodType<0 | 90 | 180 | 270> {
  return z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)], "0, 90, 180 or 270 degrees");
}

/** Keys of one shape in an opening and in the crest. */
interface DrawingFields {
  readonly file: z.ZodOptional<z.ZodType<string>>;
  readonly units: z.ZodOptional<z.ZodType<"mm" | "in" | "px">>;
  readonly scale: z.ZodOptional<z.ZodType<number | "fit">>;
  readonly layer: z.ZodOptional<z.ZodType<string>>;
}

/** A file of somebody's own drawing, and what it does not say itself. */
export function drawingFields(): DrawingFields {
  const scale = "a number over 0, at most 1000, or fit";
  return {
    file: z
      .string("the name of a file")
      .regex(DRAWING_FILE, "a DXF or SVG file beside the design file or in a folder there")
      .optional()
      .describe("Contours from a DXF or SVG file, relative to the design file."),
    units: z
      .enum(["mm", "in", "px"])
      .optional()
      .describe("What the file's numbers mean, where it does not say; px: 96 to the inch."),
    scale: z
      .union([z.number(scale).positive(scale).max(1000, scale), z.literal("fit")], scale)
      .optional()
      .describe("How much larger it is made; fit: turned and scaled until a crest's ends meet the rails. 1."),
    layer: z
      .string("a name")
      .min(1, "a name")
      .max(100)
      .optional()
      .describe("The layer or group to take; all."),
  };
}

/** Stays in the design's folder, and out of those that a job writes. */
const DRAWING_FILE =
  /^(?!(?:dxf|gcode|preview|templates)\/)(?!.*(?:^|\/)\.)[A-Za-z0-9 ._-]+(?:\/[A-Za-z0-9 ._-]+)*\.(?:dxf|svg)$/i;

export function onlyWithFile(
  given: Readonly<Partial<Record<"units" | "scale" | "layer", unknown>>>,
  context: { readonly addIssue: (issue: { code: "custom"; path: string[]; message: string }) => void },
): void {
  for (const key of ["units", "scale", "layer"] as const)
    if (given[key] !== undefined)
      context.addIssue({ code: "custom", path: [key], message: "it beside a drawing's file only" });
}
