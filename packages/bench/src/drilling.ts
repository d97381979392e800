import { segments } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import { drilledDiameter } from "./inside.ts";

/** A hole to drill, its middle from the part's left and bottom edges seen from face A, mm. */
export interface DrilledHole {
  readonly at: readonly [number, number];
  readonly diameter: number;
  /** Null: through. */
  readonly depth: number | null;
  readonly face: "A" | "B";
}

/** The holes of a part that a drill makes: its bores, and small round openings. */
export function drilledHoles(part: Part): readonly DrilledHole[] {
  return part.features.flatMap((f): DrilledHole[] => {
    if (f.kind === "bore")
      return [{ at: [f.at.x, f.at.y], diameter: f.diameter, depth: f.depth, face: f.face }];
    if (f.kind !== "opening") return [];
    const diameter = drilledDiameter(f);
    const [first] = segments(f.loop);
    if (diameter === null || first?.kind !== "arc") return [];
    return [{ at: [first.centre.x, first.centre.y], diameter, depth: null, face: "A" }];
  });
}
