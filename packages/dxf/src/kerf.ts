import { type Loop, offset, type Region } from "@dryfit/geometry";
import type { Feature, Part } from "@dryfit/joinery";

/**
 * The part as it is drawn for a beam that burns `kerf` away and a service that does not allow for it: what stays
 * is half a kerf larger all round, every cutout half a kerf smaller. Recesses are cleared, not cut out: they stay.
 *
 * Errors: RangeError where a cutout is narrower than the kerf.
 * Source: derived; a tongue t in a slot s is drawn t + kerf and s − kerf.
 */
export function withKerf(part: Part, kerf: number): Part {
  if (kerf === 0) return part;
  return {
    ...part,
    outline: grown(part.outline, kerf / 2),
    features: part.features.map((feature): Feature => {
      if (feature.kind === "opening") return { ...feature, loop: grown(feature.loop, -kerf / 2) };
      if (feature.kind === "recess" || feature.depth !== null) return feature;
      if (feature.diameter <= kerf) throw new RangeError(`"${feature.id}" is narrower than the kerf`);
      return { ...feature, diameter: feature.diameter - kerf };
    }),
  };
}

/** What such a beam leaves of drawn wood. */
export function withoutKerf<F extends string>(drawn: readonly Region<F>[], kerf: number): Region<F>[] {
  return kerf === 0 ? [...drawn] : offset(drawn, -kerf / 2);
}

function grown<F extends string>(loop: Loop<F>, by: number): Loop<F> {
  const [only, ...others] = offset([{ outer: loop, holes: [] }], by);
  if (only === undefined || others.length > 0)
    throw new RangeError("an outline falls apart when its kerf is drawn in");
  return only.outer;
}
