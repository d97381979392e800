import { type ChordRing, chordRings } from "./chords.ts";
import { type ClipKind, clip, type Fill, type Ring } from "./clipper.ts";
import type { Loop, Region, Segment } from "./curve.ts";
import type { Point } from "./point.ts";
import { recovered } from "./recover.ts";
import { segments } from "./segment.ts";
import { polygon } from "./shapes.ts";

/** Closed runs of lines and arcs, each ending where it starts; they may cross themselves and each other. */
export type Runs = readonly (readonly Segment[])[];

/** The boolean of two sets of closed runs, its arcs kept. */
export function combine<F extends string>(
  kind: ClipKind,
  subject: Runs,
  tool: Runs,
  fill: Fill,
): Region<F>[] {
  const { rings, sources } = clipped(kind, subject, tool, fill);
  // The clipper forgets frames; the caller's types remember them.
  return recovered(rings, sources) as Region<F>[];
}

/** The same with chords for arcs: polygons within FLATTENING_MM, in a fraction of the time. */
export function combineFlat<F extends string>(
  kind: ClipKind,
  subject: Runs,
  tool: Runs,
  fill: Fill,
): Region<F>[] {
  return polygons(clipped(kind, subject, tool, fill).rings);
}

export function runsOf(regions: readonly Region[]): Runs {
  return regions.flatMap(({ outer, holes }) => [outer, ...holes].map((loop: Loop) => segments(loop)));
}

function clipped(
  kind: ClipKind,
  subject: Runs,
  tool: Runs,
  fill: Fill,
): { rings: readonly Ring[]; sources: readonly ChordRing[] } {
  // Nothing has nothing in common with anything, and nothing to lose.
  if (subject.length === 0 && kind !== "union") return { rings: [], sources: [] };
  const sources = chordRings([...subject, ...tool]);
  const points = sources.map((ring) => ring.points);
  const rings = clip(kind, points.slice(0, subject.length), points.slice(subject.length), fill);
  return { rings, sources };
}

function polygons<F extends string>(rings: readonly Ring[]): Region<F>[] {
  const loop = (ring: Ring): Loop<F> => polygon(ring.points as readonly Point<F>[]);
  return rings.flatMap((outer): Region<F>[] => [
    { outer: loop(outer), holes: outer.inside.map(loop) },
    ...outer.inside.flatMap((hole) => polygons<F>(hole.inside)),
  ]);
}
