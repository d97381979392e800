import type { OutFile } from "@dryfit/job";
import { strToU8, zipSync } from "fflate";

/** The folder as one zip. No clock: the same files give the same bytes. */
export function zipOf(files: readonly OutFile[]): Uint8Array {
  const entries = Object.fromEntries(files.map(({ file, text }) => [file, strToU8(text)]));
  return zipSync(entries, { level: 6, mtime: new Date(1980, 0, 1) });
}
