import { z } from "zod";
import type { Units } from "./design.ts";
import type { DesignInput } from "./design-input.ts";
import { drawingFields, onlyWithFile, openingSchema, quarterTurn } from "./opening-schema.ts";
import { angle, count, type Field, lengthsIn, lengthWords, list, measure, name } from "./schema-fields.ts";

/** The schema of a design file whose bare numbers are in `units`. Unknown keys are refused everywhere. */
export function designSchema(units: Units): Field<DesignInput> {
  const fields = z.strictObject({
    dryfit: z.literal(1, "1, the version of the design file").describe("The version of the design file."),
    name: name("The case's name; files are named after it."),
    units: z.enum(["mm", "in"]).optional().describe("What a bare number means. mm where left out."),
    inside: insideSchema(units),
    sheet: sheetSchema(units),
    construction: z
      .enum(["housed", "layered"])
      .optional()
      .describe(
        "housed: tongues stand in housings cut part way into the cheeks. layered: every cut goes through, each cheek is glued up of layers. housed where left out.",
      ),
    joint: jointSchema(units).optional(),
    layers: layersSchema(units).optional(),
    cutter: lengthsIn(units)(
      0.5,
      25,
      "Diameter of the cutter that inside corners are drawn for. 6 mm.",
    ).optional(),
    cheek: cheekSchema(units).optional(),
    tier: tierSchema(units).nullable().optional(),
    openings: list(openingSchema(units), 200, "cutouts").optional(),
    edges: list(edgeSchema(units), 200, "edges to round over").optional(),
  });
  return fields.superRefine(({ construction, layers }, context) => {
    if (layers !== undefined && construction !== "layered")
      context.addIssue({
        code: "custom",
        path: ["layers"],
        message: "these keys beside construction: layered",
      });
  });
}

function insideSchema(units: Units) {
  const length = lengthsIn(units);
  return z
    .strictObject({
      width: length(0.5, 3000, "Between the cheeks."),
      depth: length(0.5, 3000, "Between the rails."),
      front: length(0.5, 3000, "From the inside floor to the front rail's top."),
      back: length(0.5, 3000, "From the inside floor to the back rail's top."),
    })
    .describe("The clear space between the panels.");
}

function sheetSchema(units: Units) {
  const length = lengthsIn(units);
  const thickness = length(3, 40, "One measured thickness.");
  const grain = z.enum(["x", "y"]).optional().describe("The way the face grain runs. x where left out.");
  const size = z.tuple([length(50, 5000, "Along x."), length(50, 5000, "Along y.")], "two lengths: [x, y]");
  const box = z.tuple(
    [
      length(0, 5000, "From the left edge."),
      length(0, 5000, "From the lower edge."),
      length(1, 5000, "Across."),
      length(1, 5000, "Up."),
    ],
    "four lengths: [left, bottom, width, height]",
  );
  const entry = z.strictObject({
    id: name("The sheet's name.").optional(),
    size,
    grain,
    count: count(0, 1000, "How many there are; as many as needed where left out.").nullable().optional(),
    price: measure("Price of one.").nullable().optional(),
    avoid: list(box, 100, "places to keep clear of: [left, bottom, width, height]").optional(),
  });
  const lock = z.strictObject({
    part: z.string("the name of a part").describe("cheek-left, base, slat-1 …"),
    sheet: count(1, 1000, "Which of the sheets that are cut, from 1. 1.").optional(),
    size: z.string("the id of one of the sizes").optional().describe("The first of sizes where left out."),
    x: length(0, 5000, "From the sheet's left edge to the part's leftmost place as it lies."),
    y: length(0, 5000, "From the sheet's lower edge to the part's lowest place as it lies."),
    turn: quarterTurn().optional().describe("Counter-clockwise, seen from face A. 0."),
  });
  return z
    .strictObject({
      name: z
        .string("a name")
        .min(1, "a name")
        .max(60, "a name of at most 60 letters")
        .optional()
        .describe("The material."),
      thickness: z
        .union(
          [thickness, list(thickness, 50, "caliper readings", 1)],
          `${lengthWords(3, 40, units)}, or a list of caliper readings`,
        )
        .describe("Measured: one number, or a list of caliper readings."),
      sizes: list(
        z.union([size, entry], "[x, y], or a group of the keys id, size, grain, count, price, avoid"),
        50,
        "sheets at hand: [x, y], or a group with size",
        1,
      ),
      grain,
      locked: list(
        lock,
        200,
        "parts laid down by hand: groups of the keys part, sheet, size, x, y, turn",
      ).optional(),
      margin: length(0, 200, "Kept free all round a sheet. 10 mm.").optional(),
      web: length(0, 100, "Least wood between the cuts of two parts. 4 mm.").optional(),
      density: measure("kg/m³. 680.").optional(),
      modulus: measure("Stiffness along the grain, N/mm². 8000.").optional(),
    })
    .describe("The plywood in hand.");
}

function jointSchema(units: Units) {
  const length = lengthsIn(units);
  return z
    .strictObject({
      rails: z
        .enum(["inner", "full", "fewest-flips"])
        .optional()
        .describe(
          "The rails' ends: inner tongues (two setups), full-thickness (one, cheeks stand out), or whichever needs fewer flips.",
        ),
      tongue: z
        .strictObject({
          thickness: length(1, 30, "About half the sheet.").optional(),
          length: length(1, 30, "From shoulder to end.").optional(),
        })
        .optional(),
      clearance: z
        .strictObject({
          side: length(0, 2, "Air on each side of a tongue. 0.1 mm.").optional(),
          end: length(0, 5, "Air under a tongue. 0.4 mm.").optional(),
        })
        .optional(),
      stop: length(
        1,
        50,
        "Least wood between a housing and the cheek's edges. 6 mm, less on thin sheets.",
      ).optional(),
      piece: length(1, 100, "The shortest piece of tongue that is left standing. 10 mm.").optional(),
    })
    .describe("Tongues and the housings they stand in.");
}

function layersSchema(units: Units) {
  const length = lengthsIn(units);
  return z
    .strictObject({
      count: count(2, 6, "Layers of each cheek, the plain outer one among them. 2.").optional(),
      tongue: length(8, 300, "About how wide each tongue is along its edge. 40 mm.").optional(),
      apart: length(4, 300, "Wood between two slots. 25 mm.").optional(),
      pins: z
        .strictObject({
          count: count(2, 12, "How many go through each cheek. 3.").optional(),
          diameter: length(1, 20, "5 mm.").optional(),
        })
        .optional()
        .describe("Dowels that keep the layers in place while they are glued."),
    })
    .describe("The cheeks' layers, with construction: layered.");
}

function cheekSchema(units: Units) {
  const length = lengthsIn(units);
  const foot = z.strictObject({
    drop: length(0, 300, "How far its outer corner goes below the base; 0: no foot.").optional(),
    length: length(5, 1000, "Along the floor, from the cheek's edge. 60 mm.").optional(),
    angle: angle(20, 90, "Between the foot's end and the belly, degrees. 60.").optional(),
    radius: length(0, 200, "Of the curve into the belly; at least the cutter's. 10 mm.").optional(),
  });
  return z
    .strictObject({
      crest: z
        .strictObject({
          form: z
            .enum(["straight", "arc", "batten"])
            .optional()
            .describe("The curve between the rails; batten: of a thin strip bent over three places."),
          through: z
            .strictObject({
              at: length(0.5, 3000, "From the front rail's inside."),
              height: length(0.5, 3000, "Over the inside floor."),
            })
            .optional(),
          above: length(-100, 200, "How far the crest stands over the rails. 0.").optional(),
          ...drawingFields(),
        })
        .superRefine(({ form, through, ...drawing }, context) => {
          if (drawing.file === undefined) onlyWithFile(drawing, context);
          else if (form !== undefined || through !== undefined)
            context.addIssue({
              code: "custom",
              path: [form !== undefined ? "form" : "through"],
              message: "nothing beside a drawing's file: it is the crest",
            });
        })
        .optional(),
      feet: z.strictObject({ front: foot.optional(), back: foot.optional() }).optional(),
      overhang: z
        .strictObject({
          front: length(0, 200, "0.").optional(),
          back: length(0, 200, "0.").optional(),
        })
        .optional()
        .describe("How far the cheeks stand out over the rails."),
    })
    .describe("The side panels.");
}

function tierSchema(units: Units) {
  const length = lengthsIn(units);
  return z
    .strictObject({
      slats: count(1, 20, "How many."),
      slat: length(15, 500, "Width of one."),
      gap: length(0, 200, "Between slats, for cables. 28 mm.").optional(),
      height: length(10, 500, "From the inside floor to the slats' top.").optional(),
      clearance: length(0, 10, "Air at each end of a slat. 1 mm.").optional(),
      swing: angle(0, 180, "How far it lifts, degrees; 0: screwed down. 90.").optional(),
      pin: length(0.5, 20, "From the hinge's pin to the faces it is screwed to. 3 mm.").optional(),
      bearers: z
        .strictObject({
          count: count(0, 6, "How many. 2.").optional(),
          inset: length(5, 1000, "From a cheek to the middle of the outermost.").optional(),
          air: length(0, 10, "Over the floor, for felt. 1 mm.").optional(),
        })
        .optional()
        .describe("Strips on edge under the slats."),
      cleat: z
        .strictObject({ height: length(8, 200, "25 mm.").optional() })
        .optional()
        .describe("Strips on the cheeks under the slats' ends."),
      screw: length(2, 8, "Diameter of the screw holes. 3.2 mm.").optional(),
    })
    .describe("A raised level of slats at the back.");
}

function edgeSchema(units: Units) {
  return z.strictObject({
    panel: z.string("the name of a panel"),
    edge: z
      .string("the name of an edge")
      .describe("crest, front, back, belly, top, bottom, left, right: by panel."),
    radius: lengthsIn(units)(0.5, 50, "Of the rounding; a chamfer's width on both faces."),
    faces: z.enum(["both", "A", "B"]).optional().describe("Which arrises. both where left out."),
    form: z.enum(["round", "chamfer"]).optional().describe("round where left out."),
    by: z
      .enum(["hand", "cutter"])
      .optional()
      .describe(
        "cutter: a pass with a round-over or V cutter of the drawer, where it reaches the edge. hand where left out.",
      ),
  });
}
