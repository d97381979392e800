import type { Design } from "./design.ts";
import type { Part } from "./part.ts";

/** A part of the design's sheet: what every part shares is filled in. */
export function sheetPart(
  design: Design,
  part: Omit<Part, "material" | "thickness" | "roundOvers" | "mating"> & Partial<Part>,
): Part {
  return {
    material: design.sheet.name,
    thickness: design.sheet.thickness,
    roundOvers: [],
    mating: [],
    ...part,
  };
}
