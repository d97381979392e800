import { type Read, readYaml, type Units } from "@dryfit/joinery";
import { z } from "zod";
import type { Cutter } from "./cutter.ts";
import { cuttersSchema } from "./cutter-schema.ts";
import type { Machine } from "./machine.ts";
import { machineSchema } from "./machine-schema.ts";

/** Reads a machine file. `file` is only a name for messages. */
export function readMachine(text: string, file: string): Read<Machine> {
  return readYaml(text, file, machineSchema(unitsOf(text, file)));
}

/** Reads a cutter file. */
export function readCutters(text: string, file: string): Read<readonly Cutter[]> {
  return readYaml(text, file, cuttersSchema(unitsOf(text, file)));
}

/** For editors that complete and check while one types. */
export function machineJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(machineSchema("mm"), { io: "input" });
}

export function cuttersJsonSchema(): z.core.JSONSchema.JSONSchema {
  return z.toJSONSchema(cuttersSchema("mm"), { io: "input" });
}

/** Bare numbers cannot be read before their unit is known; whatever is wrong with it, the full schema says. */
function unitsOf(text: string, file: string): Units {
  const read = readYaml(text, file, z.looseObject({ units: z.literal("in") }));
  return read.ok ? "in" : "mm";
}
