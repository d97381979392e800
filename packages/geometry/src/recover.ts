import type { ChordRing } from "./chords.ts";
import type { Ring } from "./clipper.ts";
import type { Loop, Region, Segment } from "./curve.ts";
import { joined } from "./joints.ts";
import { signedArea } from "./measure.ts";
import { regionsOf } from "./nesting.ts";
import { parted } from "./parted.ts";
import { loopOf, segmentLength, segments } from "./segment.ts";
import { sideIndex } from "./side-index.ts";
import { stretchesOf } from "./stretch.ts";
import { FLATTENING_MM, SAME_POINT_MM } from "./tolerance.ts";

/**
 * Clipped rings of chords, given back as the lines and arcs that the chords stood for.
 *
 * Every side of a clipped ring lies on a side that went in, so it knows its line or circle; where two of
 * those meet, the corner is their exact crossing. The result is as exact as its sources, not as the chords.
 */
export function recovered(rings: readonly Ring[], sources: readonly ChordRing[]): Region[] {
  const index = sideIndex(sources);
  const exact = (ring: Ring): readonly Segment[] => joined(stretchesOf(ring.points, index));
  const regions: Region[] = [];
  const collect = (outers: readonly Ring[]): void => {
    for (const ring of outers) {
      regions.push(...regionsIn(exact(ring), ring.inside.map(exact)));
      for (const hole of ring.inside) collect(hole.inside);
    }
  };
  collect(rings);
  return inOrder(regions, (region) => region.outer);
}

/** One region, or several where a neck has no width. */
function regionsIn(outer: readonly Segment[], holes: readonly (readonly Segment[])[]): Region[] {
  const [around, inside] = [loopsFrom(outer), holes.map(loopsFrom)];
  const [only, ...others] = around;
  if (only === undefined) return [];
  const simple = others.length === 0 && inside.every((loops) => loops.length <= 1);
  return simple
    ? [{ outer: only, holes: inOrder(inside.flat(), (hole) => hole) }]
    : regionsOf([...around, ...inside.flat()]);
}

function loopsFrom(run: readonly Segment[]): Loop[] {
  // As bulges will tell it: a corner may lie off its circle by what chords miss.
  return parted(segments(loopOf(run)))
    .filter(hasWidth)
    .map((piece) => fromLowerLeft(loopOf(piece)));
}

/** Thinner than its chords are exact, a ring is the chords' doing; without arcs, the grid's. */
function hasWidth(run: readonly Segment[]): boolean {
  const least = run.some((s) => s.kind === "arc") ? FLATTENING_MM : SAME_POINT_MM;
  const length = run.reduce((sum, s) => sum + segmentLength(s), 0);
  return 2 * Math.abs(signedArea(loopOf(run))) > least * length;
}

/** Started at its leftmost vertex, the lowest of several, wherever the sources started. */
function fromLowerLeft(loop: Loop): Loop {
  const { vertices } = loop;
  const left = vertices.reduce((least, { x }) => Math.min(least, x), Infinity) + SAME_POINT_MM;
  let start = -1;
  vertices.forEach((v, i) => {
    if (v.x <= left && (start < 0 || v.y < vertices[start]!.y)) start = i;
  });
  return start <= 0
    ? loop
    : { closed: true, vertices: [...vertices.slice(start), ...vertices.slice(0, start)] };
}

function inOrder<T>(list: readonly T[], loopIn: (item: T) => Loop): T[] {
  const corner = (item: T) => loopIn(item).vertices[0]!;
  return [...list].sort((a, b) => corner(a).x - corner(b).x || corner(a).y - corner(b).y);
}
