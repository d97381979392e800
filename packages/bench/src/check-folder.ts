import type { z } from "zod";
import type { BenchFinding, TextFile } from "./templates-job.ts";

/** A folder of ours as it was found. */
export interface FoundFolder<Manifest> {
  readonly manifest: Manifest;
  readonly textOf: (name: string) => string | undefined;
}

/** As much of every job.json as tells which files were written. */
interface Listing {
  readonly files: readonly { readonly file: string }[];
}

/** The folder with its job.json read as `shape`; what is wrong where it is none of ours, or where files are gone. */
export function foundFolder<Manifest extends Listing>(
  folder: readonly TextFile[],
  shape: z.ZodType<Manifest>,
  sources: readonly string[],
  command: string,
): FoundFolder<Manifest> | readonly BenchFinding[] {
  const textOf = (name: string): string | undefined => folder.find(({ file }) => file === name)?.text;
  const manifest = manifestIn(textOf("job.json") ?? "", shape);
  if (manifest === null)
    return [told("not_our_job", "job.json", "This job.json is not one that dryfit wrote.", again(command))];
  const files = [...sources, ...manifest.files.map(({ file }) => file)];
  const missing = [...new Set(files)].filter((name) => textOf(name) === undefined);
  if (missing.length > 0)
    return missing.map((file) => told("file_missing", file, `${file} is not in the folder.`, again(command)));
  return { manifest, textOf };
}

/** A file that differs from what is made today: what was proved holds of what is made, not of it. */
export function changedFile(file: string): BenchFinding {
  const message = `${file} was changed since it was made.`;
  return { ...told("file_changed", file, message, "What was made is as it was."), severity: "warning" };
}

export function again(command: string): string {
  return `Make the folder again with dryfit ${command}.`;
}

export function told(code: string, path: string, message: string, wayOut?: string): BenchFinding {
  const way = wayOut === undefined ? {} : { wayOut };
  return { code, severity: "error", path, message, numbers: {}, ...way, at: null };
}

function manifestIn<Manifest>(text: string, shape: z.ZodType<Manifest>): Manifest | null {
  try {
    const read = shape.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}
