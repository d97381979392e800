import { areaOf, boundsOf, intersectionFlat, offsetFlat, placeCurve, type Region } from "@dryfit/geometry";
import type { Shown } from "@dryfit/job";
import type { Design, Part } from "@dryfit/joinery";
import { type Place, placementOf } from "./place.ts";

/** Why a part cannot lie where it is held, at a glance while it is dragged; null where it can. Nesting judges it anew. */
export function conflictOf(
  held: Place,
  places: readonly Place[],
  parts: readonly Part[],
  { stock }: Shown["layout"]["sheets"][number],
  { sheet, cutter }: Design,
): string | null {
  const part = parts.find(({ id }) => id === held.part)!;
  const outline = placeCurve(placementOf(part, held), part.outline);
  const { min, max } = boundsOf(outline);
  const edge = Math.min(min.x, min.y, stock.size[0] - max.x, stock.size[1] - max.y);
  if (edge < sheet.margin - NEAR_MM) return "too near the sheet's edge";
  const kept = offsetFlat<"sheet">([{ outer: outline, holes: [] }], cutter + sheet.web - NEAR_MM);
  const meets = (region: Region<"sheet">): boolean => areaOf(intersectionFlat(kept, [region])) > 0;
  if (stock.keepOuts.some(meets)) return "too near a place to keep clear";
  const other = places
    .filter((each) => each.isLocked && each.part !== held.part && each.sheet === held.sheet)
    .map((each) => ({ each, part: parts.find(({ id }) => id === each.part)! }))
    .find(({ each, part: there }) =>
      meets({ outer: placeCurve(placementOf(there, each), there.outline), holes: [] }),
    );
  return other ? `too near ${other.part.title.toLowerCase()}, which is locked` : null;
}

/** A hair nearer than asked is as asked, mm. */
const NEAR_MM = 0.001;
