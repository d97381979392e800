import { arcThrough, elasticaThrough, type Path, point, polyline } from "@dryfit/geometry";
import type { Design } from "./design.ts";

/**
 * The cheek's upper edge between the rails' inside faces, from front to back, in y and z of the case.
 * Over the rails the crest runs level, so that they are flush with it and never proud.
 *
 * Errors: RangeError where no curve of this form goes through the three points.
 */
export function crestOf(design: Design): Path<"panel"> {
  const { inside, cheek } = design;
  const { form, through, above } = cheek.crest;
  const front = point<"panel">(0, inside.front + above);
  const back = point<"panel">(inside.depth, inside.back + above);
  const middle = point<"panel">(through.at, through.height);
  if (form === "straight") return polyline([front, back]);
  return form === "arc" ? arcThrough(front, middle, back) : elasticaThrough(front, middle, back);
}
