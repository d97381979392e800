import { type Read, readYaml } from "@dryfit/joinery";
import { z } from "zod";

/** Which cases are cut together. */
export interface Batch {
  readonly name: string;
  /** Readings of the sheet that all are cut from, mm, in place of what the designs say; null: theirs. */
  readonly thickness: readonly number[] | null;
  /** Each copy by itself: its name in the folder and on its parts, and the design file as the batch file names it. */
  readonly cases: readonly { readonly id: string; readonly design: string }[];
}

/** Most cases in one job: a morning's cutting for a small workshop many times over. */
const MOST_CASES = 100;

/** Reads a batch file. `file` is only a name for messages. */
export function readBatch(text: string, file: string): Read<Batch> {
  const read = readYaml(text, file, schema);
  return read.ok ? { ...read, value: batchOf(read.value) } : read;
}

/** For editors that complete and check while one types. */
export function batchJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(schema, { io: "input" });
}

const reading = z
  .number("a thickness from 3 to 40 mm")
  .min(3, "a thickness from 3 to 40 mm")
  .max(40, "a thickness from 3 to 40 mm");

const schema = z
  .strictObject({
    batch: z.literal(1, "1: the only form of this file so far").describe("Form of this file: 1."),
    name: z
      .string("a name of letters, digits, - and _")
      .regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,39}$/, "a name of up to 40 letters, digits, - and _"),
    thickness: z
      .union([reading, z.array(reading).min(1).max(50)], "a thickness in mm, or a list of readings")
      .optional()
      .describe("Readings of the sheet that all cases are cut from, in place of what their designs say, mm."),
    cases: z
      .array(
        z.strictObject({
          design: z
            .string("the path of a design file, from this file's folder")
            .min(1, "the path of a design file, from this file's folder"),
          copies: z
            .int("how many, a whole number from 1 to 50")
            .min(1, "how many, a whole number from 1 to 50")
            .max(50, "how many, a whole number from 1 to 50")
            .default(1),
        }),
        "a list of designs: - { design: case.yaml, copies: 2 }",
      )
      .min(1, "at least one design: - { design: case.yaml, copies: 2 }"),
  })
  .superRefine(({ cases }, context) => {
    const count = cases.reduce((sum, { copies }) => sum + copies, 0);
    if (count <= MOST_CASES) return;
    const message = `at most ${MOST_CASES} cases in all`;
    context.issues.push({ code: "custom", message, path: ["cases"], input: cases });
  });

function batchOf({ name, thickness, cases }: z.infer<typeof schema>): Batch {
  const copies = cases.flatMap(({ design, copies }) => Array.from({ length: copies }, () => design));
  const stems = copies.map(stemOf);
  return {
    name,
    thickness: thickness === undefined ? null : [thickness].flat(),
    cases: copies.map((design, i) => {
      const stem = stems[i]!;
      const alike = stems.filter((other) => other === stem).length;
      const number = stems.slice(0, i + 1).filter((other) => other === stem).length;
      return { id: alike === 1 ? stem : `${stem}-${number}`, design };
    }),
  };
}

/** "cases/tidepool.yaml" is tidepool: what a part's name may hold. */
function stemOf(design: string): string {
  const stem = design.replace(/^.*[/\\]/, "").replace(/\.ya?ml$/i, "");
  return (
    stem
      .toLowerCase()
      .replace(/[^a-z0-9_-]+/g, "-")
      .replace(/^-+|-+$/g, "") || "case"
  );
}
