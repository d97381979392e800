import type { Placement } from "@dryfit/geometry";
import type { Part } from "@dryfit/joinery";
import type { Stock } from "./layout.ts";

/** How a part may be turned before it is laid down: quarters × 90° + angle, counter-clockwise. */
export interface Turn {
  readonly quarters: 0 | 1 | 2 | 3;
  /** Radians in [0, π/2). */
  readonly angle: number;
}

const ALONG: readonly Turn[] = [turn(0), turn(2)];
const QUARTERS: readonly Turn[] = [turn(0), turn(1), turn(2), turn(3)];

/**
 * The turns that the grain allows on a sheet whose grain runs along x: two for a part of fixed grain, the `asked`
 * ones, else every quarter, for a part of free grain.
 */
export function turnsAlongX(part: Part, asked: readonly Turn[] | undefined): readonly Turn[] {
  if (part.grain === "free") return asked ?? QUARTERS;
  const kept = part.grain === "x" ? ALONG : ALONG.map(quarterMore);
  return asked
    ? kept.filter((k) => asked.some((a) => a.quarters === k.quarters && a.angle === k.angle))
    : kept;
}

/** The same turns on this stock: where its grain runs along y, everything stands a quarter turn further. */
export function turnsFor(part: Part, stock: Stock, asked: readonly Turn[] | undefined): readonly Turn[] {
  const turns = turnsAlongX(part, asked);
  return stock.grain === "x" ? turns : turns.map(quarterMore);
}

function quarterMore(t: Turn): Turn {
  return { ...t, quarters: ((t.quarters + 1) % 4) as Turn["quarters"] };
}

/** Is this placement one that the grain allows, and never a flip? */
export function turnAllowed(part: Part, stock: Stock, placed: Placement): boolean {
  if (placed.flip) return false;
  if (part.grain === "free") return true;
  return placed.angle === 0 && (placed.quarters % 2 === 0) === (part.grain === stock.grain);
}

export function radiansOf(t: Turn): number {
  return (t.quarters * Math.PI) / 2 + t.angle;
}

function turn(quarters: 0 | 1 | 2 | 3): Turn {
  return { quarters, angle: 0 };
}
