import { z } from "zod";
import { fillDesign } from "./defaults.ts";
import type { Design, Units } from "./design.ts";
import { designSchema } from "./design-schema.ts";
import { type Read, readYaml } from "./yaml-file.ts";

/** Reads a design file and fills in its defaults. `file` is only a name for messages. */
export function readDesign(text: string, file: string): Read<Design> {
  const read = readYaml(text, file, (raw) => schemaFor(unitsIn(raw)));
  return read.ok ? { ...read, value: fillDesign(read.value, read.value.units ?? "mm") } : read;
}

/** For editors that complete and check while one types: the JSON Schema of the design file. */
export function designJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(designSchema("mm"), { io: "input" });
}

/** Bare numbers cannot be read before their unit is known; whatever is wrong with it, the schema says. */
function unitsIn(raw: unknown): Units {
  return (raw as { units?: unknown } | null)?.units === "in" ? "in" : "mm";
}

/** Built once: reading takes less long than building what is read by. */
const schemas = new Map<Units, ReturnType<typeof designSchema>>();

function schemaFor(units: Units): ReturnType<typeof designSchema> {
  const schema = schemas.get(units) ?? designSchema(units);
  schemas.set(units, schema);
  return schema;
}
