import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";

/** What the outside auditor says of one file. */
export interface Verdict {
  readonly errors: number;
  readonly fixes: number;
  readonly messages: readonly string[];
  readonly release: string;
  readonly units: number | null;
  readonly undefinedLayers: readonly string[];
  readonly layers: Readonly<
    Record<
      string,
      {
        readonly types: Readonly<Record<string, number>>;
        readonly open: number;
        /** Area in mm², and the box as x0, y0, x1, y1. */
        readonly contours: readonly { readonly area: number; readonly box: readonly number[] }[];
      }
    >
  >;
}

/** Writes the files into a folder and has them all judged in one run. */
export function audit(
  into: string,
  texts: Readonly<Record<string, string>>,
): Readonly<Record<string, Verdict>> {
  const names = Object.keys(texts);
  for (const name of names) writeFileSync(join(into, name), texts[name]!);
  const script = new URL("outside/dxf_audit.py", import.meta.url).pathname;
  const out = execFileSync("/usr/bin/python3", [script, ...names.map((name) => join(into, name))], {
    encoding: "utf8",
  });
  const lines = out.trim().split("\n");
  return Object.fromEntries(names.map((name, i) => [name, JSON.parse(lines[i]!) as Verdict]));
}
