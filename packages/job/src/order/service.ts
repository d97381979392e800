import { lengthIn, oneOf, type Read, readYaml, type Units } from "@dryfit/joinery";
import { z } from "zod";

/** What a cutting service can make and how it wants its files, lengths in mm. */
export interface Service {
  readonly name: string;
  /** `recesses`: pockets part way into the wood as well. */
  readonly cuts: "through" | "recesses";
  /** Whether it turns a sheet over and works the other face. */
  readonly secondFace: boolean;
  readonly sheet: {
    readonly thickness: { readonly least: number; readonly most: number };
    readonly largest: readonly [number, number];
  };
  /** The smallest hole across, wood between two cuts, and radius of an inside corner. */
  readonly smallest: { readonly hole: number; readonly web: number; readonly insideRadius: number };
  /** `drawn`: the customer draws the kerf in. `service`: the service allows for it, drawings are nominal. */
  readonly kerf: { readonly width: number; readonly allowance: "drawn" | "service" };
  /** Of its machine, all passes counted; absent: common practice. */
  readonly speed?: { readonly metresPerMinute: number; readonly secondsPerContour: number } | undefined;
  readonly files: {
    readonly release: "R12" | "R2000";
    /** Whole sheets laid out by us, or every part in a file of its own. */
    readonly layout: "nested" | "single";
    /** With the words of FILE_WORDS in braces. */
    readonly name: string;
    readonly layers: ServiceLayers;
  };
}

/** Layer names; words in braces are filled in. null: such things are left out of the drawing. */
export interface ServiceLayers {
  readonly outside: string;
  readonly inside: string;
  readonly bore: string;
  readonly recess: string;
  readonly label: string | null;
  readonly sheetEdge: string | null;
}

/** Reads a service file. `file` is only a name for messages. */
export function readService(text: string, file: string): Read<Service> {
  return readYaml(text, file, (raw) =>
    serviceSchema((raw as { units?: unknown } | null)?.units === "in" ? "in" : "mm"),
  );
}

/** For editors that complete and check while one types. */
export function serviceJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(serviceSchema("mm"), { io: "input" });
}

/** What may stand in braces in a file's name. */
const FILE_WORDS = ["case", "part", "material", "thickness", "count", "revision"] as const;

function serviceSchema(units: Units): z.ZodType<Service> {
  const length = lengthIn(units);
  const layer = (words: readonly string[]) =>
    z
      .string("a layer name")
      .refine(
        (name) => isPattern(name, words) && /^[A-Za-z0-9$_-]{1,24}$/.test(name.replace(/[{}]/g, "")),
        `a layer name of letters, digits, $, - and _, at most 24${words.length > 0 ? `; ${braced(words)} are filled in` : ""}`,
      );
  const files = z.strictObject({
    release: oneOf(["R12", "R2000"]).default("R2000"),
    layout: oneOf(["nested", "single"]).default("nested"),
    name: z
      .string("a file name")
      .refine(
        (name) =>
          name.includes("{part}") &&
          isPattern(name, FILE_WORDS) &&
          /^[A-Za-z0-9._-]{1,100}$/.test(name.replace(/[{}]/g, "")),
        `letters, digits, ., _ and -, with {part} among the words in braces: ${braced(FILE_WORDS)}`,
      )
      .default("{case}-{part}-{material}-{thickness}mm-{count}x"),
    layers: z
      .strictObject({
        outside: layer([]).default("THROUGH_OUTSIDE"),
        inside: layer([]).default("THROUGH_INSIDE"),
        bore: layer(["diameter", "depth", "face"]).default("BORE_{diameter}_{depth}"),
        recess: layer(["depth", "face"]).default("RECESS_{depth}_{face}"),
        label: layer([]).nullable().default("LABEL"),
        sheetEdge: layer([]).nullable().default("SHEET_EDGE"),
      })
      .prefault({}),
  });
  return z
    .strictObject({
      name: z
        .string("a name")
        .min(1, "a name")
        .max(60, "a name of at most 60 letters")
        .describe("For the papers."),
      units: oneOf(["mm", "in"]).optional().describe("What a bare number means. mm where left out."),
      cuts: oneOf(["through", "recesses"]).describe("through cuts only, or recesses as well."),
      secondFace: z.boolean("true or false").default(false).describe("Whether sheets are turned over."),
      sheet: z.strictObject({
        thickness: z.strictObject({ least: length(0.5, 60), most: length(0.5, 60) }),
        largest: z.tuple([length(50, 5000), length(50, 5000)], "two lengths: [x, y]"),
      }),
      smallest: z
        .strictObject({
          hole: length(0, 50).default(0),
          web: length(0, 50).default(0),
          insideRadius: length(0, 50).default(0),
        })
        .prefault({})
        .describe("Hole across, wood between two cuts, radius of an inside corner."),
      kerf: z
        .strictObject({ width: length(0, 25), allowance: oneOf(["drawn", "service"]) })
        .describe("What a cut takes away, and who allows for it."),
      speed: z
        .strictObject({
          metresPerMinute: figure(0.01, 50, "metres of cut in a minute"),
          secondsPerContour: figure(0, 600, "seconds for each start"),
        })
        .optional()
        .describe("How fast it cuts, all passes counted, for the minutes on the build sheet."),
      files: files.prefault({}),
    })
    .superRefine(({ sheet: { thickness }, kerf }, context) => {
      if (thickness.least > thickness.most)
        context.addIssue({
          code: "custom",
          path: ["sheet", "thickness", "most"],
          message: "no less than least",
        });
      if (kerf.allowance === "drawn" && kerf.width > WIDEST_DRAWN_MM)
        context.addIssue({
          code: "custom",
          path: ["kerf", "width"],
          message: `at most ${WIDEST_DRAWN_MM} mm where it is drawn in: a router's service allows for its cutter itself`,
        });
    })
    .transform(({ units: _, ...service }) => service);
}

function figure(least: number, most: number, what: string): z.ZodNumber {
  const allowed = `${what}, from ${least} to ${most}`;
  return z.number(allowed).min(least, allowed).max(most, allowed);
}

/** A beam's or a jet's kerf; wider, it is a cutter. */
const WIDEST_DRAWN_MM = 1.5;

/** Whether all that stands in braces is one of the words. */
function isPattern(name: string, words: readonly string[]): boolean {
  const used = [...name.matchAll(/\{([^{}]*)\}/g)].map(([, word]) => word!);
  return used.every((word) => words.includes(word)) && !/[{}]/.test(name.replace(/\{[^{}]*\}/g, ""));
}

function braced(words: readonly string[]): string {
  return words.map((word) => `{${word}}`).join(", ");
}
