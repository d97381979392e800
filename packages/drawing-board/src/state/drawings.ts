import { readOutline } from "@dryfit/dxf";
import { once } from "@dryfit/geometry";
import type { OutFile } from "@dryfit/job";
import { type Design, type DrawnShape, drawingPlaces, withDrawings } from "@dryfit/joinery";

/** The design with those drawings read that it names and that are at hand. */
export function withOwnDrawings(design: Design, drawings: readonly OutFile[]): Design {
  const at = (name: string): OutFile | undefined => drawings.find(({ file }) => file === name);
  return withDrawings(
    design,
    (name) => at(name)?.text,
    (text, place) => {
      const known = shapesIn(at(place.ref.file)!);
      const key = JSON.stringify([place.ref, place.wants]);
      const shape = known.get(key) ?? readOutline(text, place.ref, place);
      known.set(key, shape);
      return shape;
    },
  );
}

/** A drawing is read once for each way that it is asked for, not at each change of a figure. */
const shapesIn = once((_: OutFile) => new Map<string, DrawnShape>());

/** The drawings that a design names, by the names that it gives them. */
function namedIn(design: Design | null): readonly string[] {
  return design ? [...new Set(drawingPlaces(design).map(({ ref }) => ref.file))] : [];
}

/** Those of them that are not on the board. */
export function missingIn(design: Design | null, drawings: readonly OutFile[]): readonly string[] {
  return namedIn(design).filter((name) => !drawings.some(({ file }) => file === name));
}

/** A file as the design names it, which may be with folders before it; empty where the design does not know it. */
export function asNamed(design: Design | null, { file, text }: OutFile): readonly OutFile[] {
  return namedIn(design)
    .filter((name) => lastOf(name) === lastOf(file))
    .map((name) => ({ file: name, text }));
}

/** The drawings with these in place of those of the same names. */
export function putIn(drawings: readonly OutFile[], fresh: readonly OutFile[]): readonly OutFile[] {
  return [...drawings.filter(({ file }) => !fresh.some((one) => one.file === file)), ...fresh];
}

function lastOf(path: string): string {
  return path.split(/[\\/]/).at(-1)!.toLowerCase();
}
