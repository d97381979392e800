import { contains } from "./contains.ts";
import type { Loop, Region } from "./curve.ts";
import { signedArea } from "./measure.ts";
import { along, reversed, segments } from "./segment.ts";

/**
 * Loose loops sorted into outers and the holes directly inside them, by how deep each lies; their own
 * winding does not matter. The loops must not cross; islands inside holes become regions of their own.
 */
export function regionsOf<F extends string>(loops: readonly Loop<F>[]): Region<F>[] {
  const sized = loops
    .map((loop) => ({ loop, area: signedArea(loop) }))
    .filter(({ area }) => area !== 0)
    .sort((a, b) => Math.abs(b.area) - Math.abs(a.area));
  const depths: number[] = [];
  const regions: { outer: Loop<F>; holes: Loop<F>[] }[] = [];
  const regionAt: number[] = [];
  sized.forEach(({ loop, area }, i) => {
    // Sorted by size, so the last one found round this loop is the closest.
    let parent = -1;
    for (let k = 0; k < i; k++) if (isInside(loop, sized[k]!.loop)) parent = k;
    const depth = parent < 0 ? 0 : depths[parent]! + 1;
    depths.push(depth);
    const isOuter = depth % 2 === 0;
    const wound = area > 0 === isOuter ? loop : reversed(loop);
    if (isOuter) regionAt[i] = regions.push({ outer: wound, holes: [] }) - 1;
    else regions[regionAt[parent]!]!.holes.push(wound);
  });
  return regions;
}

/** Told by the first point of `inner` that is not on the edge of `outer`. */
function isInside<F extends string>(inner: Loop<F>, outer: Loop<F>): boolean {
  for (const s of segments(inner)) {
    for (const t of [0, 0.5]) {
      const side = contains(outer, along(s, t));
      if (side !== "edge") return side === "inside";
    }
  }
  return false;
}
