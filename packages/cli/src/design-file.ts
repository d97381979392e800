import { readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { OutFile } from "@dryfit/job";
import { drawingPlaces, readDesign } from "@dryfit/joinery";
import { readText } from "./folder.ts";

/** A design's text, and the drawings beside it that it names; one that cannot be read is left to the recipe to miss. */
export async function designFile(
  file: string,
): Promise<{ readonly design: OutFile; readonly drawings: readonly OutFile[] }> {
  const text = await readText(file);
  const read = readDesign(text, file);
  const names = read.ok ? [...new Set(drawingPlaces(read.value).map(({ ref }) => ref.file))] : [];
  const drawings = await Promise.all(
    names.map(async (name) => {
      const drawn = await readFile(join(dirname(file), name), "utf8").catch(() => null);
      return drawn === null ? [] : [{ file: name, text: drawn }];
    }),
  );
  return { design: { file, text }, drawings: drawings.flat() };
}
