import {
  arcThrough,
  battenRests,
  boundsOf,
  elasticaThrough,
  type Path,
  point,
  polyline,
  SAME_POINT_MM,
} from "@dryfit/geometry";
import type { Design } from "./design.ts";
import { drawnCrest } from "./drawn-crest.ts";

/**
 * The cheek's upper edge between the rails' inside faces, from front to back, in y and z of the case.
 * Over the rails the crest runs level, so that they are flush with it and never proud.
 * Null where no curve of this form goes through the three points without turning back.
 */
export function crestOf(design: Design): Path<"panel"> | null {
  const { inside, cheek } = design;
  // A drawing is no part of the key, and needs no search.
  if (cheek.crest.form === "drawn") return bentOver(design);
  const key = JSON.stringify([inside.depth, inside.front, inside.back, cheek.crest]);
  const known = lately.get(key);
  if (known !== undefined) return known;
  const crest = bentOver(design);
  if (lately.size >= MOST_KEPT) lately.clear();
  lately.set(key, crest);
  return crest;
}

/** Crests of late: a strip is bent by search, and a change of the inside width, say, bends none anew. */
const lately = new Map<string, Path<"panel"> | null>();
const MOST_KEPT = 16;

function bentOver(design: Design): Path<"panel"> | null {
  const crest = curveOf(design);
  if (crest === null) return null;
  const { min, max } = boundsOf(crest);
  const turnsBack = crest.vertices.some((v, i) => i > 0 && v.x <= crest.vertices[i - 1]!.x);
  const leaves = min.x < -SAME_POINT_MM || max.x > design.inside.depth + SAME_POINT_MM;
  return turnsBack || leaves ? null : crest;
}

/** Null where no drawing is at hand, or where no strip rests on pins so far from a line. */
function curveOf(design: Design): Path<"panel"> | null {
  const { inside, cheek } = design;
  const { form, through, above } = cheek.crest;
  if (form === "drawn") return drawnCrest(design);
  const front = point<"panel">(0, inside.front + above);
  const back = point<"panel">(inside.depth, inside.back + above);
  const middle = point<"panel">(through.at, through.height);
  if (form === "straight") return polyline([front, back]);
  if (form === "arc") return arcThrough(front, middle, back);
  return battenRests(front, middle, back) ? elasticaThrough(front, middle, back) : null;
}
