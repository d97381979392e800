import type { Loop, Path } from "@dryfit/geometry";
import type { Design } from "./design.ts";
import type { Finding } from "./finding.ts";

/** A file of somebody's own drawing, as the design names it. */
export interface DrawingRef {
  /** DXF or SVG, relative to the design file. */
  readonly file: string;
  /** What its numbers mean; null: as the file says. */
  readonly units: "mm" | "in" | "px" | null;
  /** How much larger it is made; `fit`: turned and scaled so that a line's ends meet what it runs between. */
  readonly scale: number | "fit";
  /** The DXF layer or SVG group to take; null: all. */
  readonly layer: string | null;
}

/** What a drawing comes to, mm, y up. */
export interface DrawnShape {
  readonly loops: readonly Loop[];
  readonly paths: readonly Path[];
  readonly findings: readonly Finding[];
}

/** A place of the design that is drawn elsewhere. */
export interface DrawingPlace {
  /** The key in the design file: "cheek.crest.file", "openings[2].file". */
  readonly field: string;
  readonly ref: DrawingRef;
  readonly wants: "contours" | "line";
}

/** Every drawing that a design asks for. */
export function drawingPlaces({ cheek, openings }: Design): readonly DrawingPlace[] {
  const crest = cheek.crest.drawing;
  return [
    ...(crest ? [{ field: "cheek.crest.file", ref: crest, wants: "line" as const }] : []),
    ...openings.flatMap(({ drawing }, i) =>
      drawing ? [{ field: `openings[${i}].file`, ref: drawing, wants: "contours" as const }] : [],
    ),
  ];
}

/**
 * The design with its drawings read. `read` gets a file's text and what is wanted of it; a file that is not at hand
 * is a finding that the recipe tells.
 */
export function withDrawings(
  design: Design,
  textOf: (file: string) => string | undefined,
  read: (text: string, place: DrawingPlace) => DrawnShape,
): Design {
  const places = drawingPlaces(design);
  if (places.length === 0) return design;
  const shapes = places.flatMap((place) => {
    const text = textOf(place.ref.file);
    return text === undefined ? [] : [[place.field, read(text, place)] as const];
  });
  return { ...design, drawn: Object.fromEntries(shapes) };
}
