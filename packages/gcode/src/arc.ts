import { arccosine, cosine, FLATTENING_MM, sine } from "@dryfit/geometry";
import type { Position } from "./toolpath.ts";

/** An arc or helix of a toolpath, in the plane of X and Y; z runs evenly with the sweep. */
export interface ArcMove {
  readonly from: Position;
  readonly to: Position;
  readonly centre: { readonly x: number; readonly y: number };
  /** Radians, signed; positive is counter-clockwise. */
  readonly sweep: number;
}

/** Where the cutter is after a share `t` of the arc. */
export function arcPoint({ from, to, centre, sweep }: ArcMove, t: number): Position {
  const [cos, sin] = [cosine(sweep * t), sine(sweep * t)];
  const [dx, dy] = [from.x - centre.x, from.y - centre.y];
  return {
    x: centre.x + dx * cos - dy * sin,
    y: centre.y + dx * sin + dy * cos,
    z: from.z + (to.z - from.z) * t,
  };
}

export function arcRadius({ from, centre }: Pick<ArcMove, "from" | "centre">): number {
  return Math.hypot(from.x - centre.x, from.y - centre.y);
}

/** Ends of chords along the arc, its start left out; every one on the arc, no chord farther than `tolerance` off it. */
export function chordsOf(arc: ArcMove, tolerance: number = FLATTENING_MM): readonly Position[] {
  const radius = arcRadius(arc);
  const step = radius > tolerance ? 2 * arccosine(1 - tolerance / radius) : Math.PI / 2;
  const count = Math.max(1, Math.ceil(Math.abs(arc.sweep) / step - 1e-9));
  return Array.from({ length: count }, (_, i) => (i === count - 1 ? arc.to : arcPoint(arc, (i + 1) / count)));
}
