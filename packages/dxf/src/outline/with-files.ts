import { type Design, drawingPlaces, withDrawings } from "@dryfit/joinery";
import { readOutline } from "./outline.ts";

interface TextFile {
  readonly file: string;
  readonly text: string;
}

/** The design with the drawings that it names read from these files, and those of them that it uses. */
export function withDrawingFiles(
  design: Design,
  files: readonly TextFile[],
): { readonly design: Design; readonly used: readonly TextFile[] } {
  const names = new Set(drawingPlaces(design).map(({ ref }) => ref.file));
  const used = files.filter(({ file }) => names.has(file));
  const textOf = (name: string): string | undefined => used.find(({ file }) => file === name)?.text;
  return { design: withDrawings(design, textOf, (text, place) => readOutline(text, place.ref, place)), used };
}
