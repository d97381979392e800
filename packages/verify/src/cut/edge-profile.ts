import { tangentOf } from "@dryfit/geometry";
import type { RoundOver } from "@dryfit/joinery";
import type { CutterFacts } from "../proof.ts";

/** Whether a cutter cuts a profile into an edge, and not upright walls. */
export function isShaped({ kind }: CutterFacts): boolean {
  return kind === "round-over" || kind === "v";
}

/**
 * How wide a shaped cutter cuts at a height over its tip, mm from its axis; 0 where it does not cut.
 *
 * A round-over cutter leaves a quarter of a circle between its bearing's radius, below, and its own radius more,
 * above. A V is a cone.
 */
export function cuttingRadius(cutter: CutterFacts, height: number): number {
  if (height <= 0) return 0;
  if (cutter.kind === "v") {
    const half = ((cutter.angleDeg ?? 0) * Math.PI) / 360;
    return Math.min(cutter.diameter / 2, height * tangentOf(half));
  }
  const [radius, bearing] = [cutter.cornerRadius ?? 0, (cutter.bearingDiameter ?? 0) / 2];
  const up = height - (cutter.bearingHeight ?? 0);
  if (up <= 0) return 0;
  return up >= radius ? cutter.diameter / 2 : bearing + radius - Math.sqrt(radius * radius - up * up);
}

/** How wide the edge as designed is taken in at a depth under the face of its arris, mm. */
export function takenIn({ form, radius }: Pick<RoundOver, "form" | "radius">, depth: number): number {
  if (depth >= radius) return 0;
  if (form === "chamfer") return radius - depth;
  return radius - Math.sqrt(radius * radius - (radius - depth) ** 2);
}
