import { readFileSync } from "node:fs";
import { stringify } from "yaml";
import type { Design } from "../src/design.ts";
import { readDesign } from "../src/read-design.ts";

/** A sample of the repository, read. */
export function sample(name: "tidepool" | "skiff" | "halyard" | "lantern"): Design {
  const text = readFileSync(new URL(`../../../samples/${name}.yaml`, import.meta.url), "utf8");
  return readOrThrow(text, `${name}.yaml`);
}

/** A plain case of 14.8 mm plywood, with some keys given otherwise: `{ "joint.stop": 9 }`. */
export function plainCase(changes: Readonly<Record<string, unknown>> = {}): Design {
  return readOrThrow(plainText(changes), "plain.yaml");
}

/** The same as the text of a design file. `undefined` takes a key out. */
export function plainText(changes: Readonly<Record<string, unknown>> = {}): string {
  const file: Record<string, unknown> = {
    dryfit: 1,
    name: "plain",
    inside: { width: 300, depth: 200, front: 50, back: 80 },
    sheet: { thickness: [14.7, 14.8, 14.9], sizes: [[1220, 610]] },
    joint: { rails: "inner", tongue: { thickness: 7, length: 6.8 } },
  };
  for (const [path, value] of Object.entries(changes)) set(file, path.split("."), value);
  return stringify(file);
}

function set(group: Record<string, unknown>, [key, ...rest]: readonly string[], value: unknown): void {
  if (rest.length === 0) group[key!] = value;
  else {
    group[key!] ??= {};
    set(group[key!] as Record<string, unknown>, rest, value);
  }
}

function readOrThrow(text: string, file: string): Design {
  const read = readDesign(text, file);
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join("\n"));
  return read.value;
}
