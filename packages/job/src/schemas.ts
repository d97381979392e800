import { cuttersJsonSchema, machineJsonSchema } from "@dryfit/gcode";
import { designJsonSchema, pricesJsonSchema } from "@dryfit/joinery";
import { batchJsonSchema } from "./batch/batch-file.ts";
import { serviceJsonSchema } from "./order/service.ts";

/** The files that a person writes. */
export const SCHEMAS = ["design", "machine", "cutters", "service", "batch", "prices"] as const;

export type SchemaName = (typeof SCHEMAS)[number];

/** The JSON Schema of a file, for editors. */
export function schemaOf(name: SchemaName): object {
  return {
    design: designJsonSchema,
    machine: machineJsonSchema,
    cutters: cuttersJsonSchema,
    service: serviceJsonSchema,
    batch: batchJsonSchema,
    prices: pricesJsonSchema,
  }[name]();
}
