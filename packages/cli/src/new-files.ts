import { mkdir, readFile, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { OutFile } from "@dryfit/job";
import { Failure } from "./failure.ts";

/**
 * Writes files that stand by themselves. One that is there already with the same text is left; one with another text
 * is not written over, and then nothing is.
 */
export async function writeNew(folder: string, files: readonly OutFile[]): Promise<readonly string[]> {
  const paths = files.map(({ file, text }) => ({ path: join(folder, file), text }));
  for (const { path, text } of paths) {
    const there = await readFile(path, "utf8").catch(() => null);
    if (there !== null && there !== text)
      throw new Failure(
        `${path} is there already and says something else. Move it away or name another place with --out.`,
      );
  }
  try {
    for (const { path, text } of paths) {
      await mkdir(dirname(path), { recursive: true });
      await writeFile(path, text);
    }
  } catch (error) {
    throw new Failure(`Could not write ${folder}: ${error instanceof Error ? error.message : String(error)}`);
  }
  return paths.map(({ path }) => path);
}
