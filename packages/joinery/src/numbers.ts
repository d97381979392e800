import { arctangent } from "@dryfit/geometry";
import type { Design } from "./design.ts";
import { slotEnd } from "./slot-end.ts";

export type RailStyle = "inner" | "full";

/** Two ends of a stretch along one axis, mm. */
export interface Span {
  readonly min: number;
  readonly max: number;
}

/**
 * What follows from the design by arithmetic alone, in the case frame (x right, y back, z up; origin at
 * the inside floor's front left corner). mm and radians. `explain` shows each sum.
 */
export interface CaseNumbers {
  readonly style: RailStyle;
  /** Mean and greatest thickness of the sheet. */
  readonly t: number;
  readonly thickest: number;
  /** Radius that the cutter leaves in an inside corner. */
  readonly r: number;
  readonly base: { readonly x: number; readonly y: number };
  readonly rails: { readonly length: number; readonly front: number; readonly back: number };
  /** Of every housing and groove. */
  readonly recessDepth: number;
  readonly rebateDepth: number;
  /** Wood left behind a housing in the thinnest place of the sheet. */
  readonly behind: number;
  /** Across the base's housing and the rails' grooves. */
  readonly baseHousing: Span;
  /** How thick a rail's end is that its housing is sized on. */
  readonly seat: number;
  readonly frontHousing: Span;
  readonly backHousing: Span;
  /** A tongue stays this far short of a round housing end; `shoulder` adds the round corner at its own root. */
  readonly slotEnd: number;
  readonly shortOf: number;
  /** The lowest that a housing may reach, and the highest at a level crest. */
  readonly lowest: number;
  readonly highest: { readonly front: number; readonly back: number };
  /** The cheek's front and back edges. */
  readonly cheek: Span;
  readonly outside: { readonly width: number; readonly depth: number };
  /** How low the cheeks and rails reach, feet apart, in z. */
  readonly belly: number;
  readonly rake: number;
  readonly tierDepth: number | null;
}

export function numbersOf(design: Design, style: RailStyle = railStyle(design)): CaseNumbers {
  const { inside, joint, cheek, tier } = design;
  const { min: thinnest, mean: t, max: thickest } = design.sheet.thickness;
  const layers = design.layers?.count ?? 1;
  const { thickness: k, length: l } = joint.tongue;
  const { side: c, end: g } = joint.clearance;
  const r = design.cutter / 2;
  const seat = style === "inner" ? k : thickest;
  const edges = { min: -t - cheek.overhang.front, max: inside.depth + t + cheek.overhang.back };
  const depth = edges.max - edges.min;
  const { front, back } = cheek.feet;
  const e = slotEnd(r, c);
  // A layered base is slotted whole, and the wood under its slots is the stop's.
  const belly = design.layers ? -thickest - c - joint.stop : -t;
  return {
    style,
    t,
    thickest,
    r,
    base: {
      x: inside.width + 2 * l,
      y: inside.depth + 2 * (design.layers ? railTongue(design) : l),
    },
    rails: { length: inside.width + 2 * l, front: inside.front - belly, back: inside.back - belly },
    recessDepth: design.layers ? (layers - 1) * t : l + g,
    rebateDepth: design.layers ? 0 : t - k,
    behind: design.layers ? thinnest : thinnest - l - g,
    baseHousing: { min: (design.layers ? -thickest : -k) - c, max: c },
    seat,
    frontHousing: { min: -seat - c, max: c },
    backHousing: { min: inside.depth - c, max: inside.depth + seat + c },
    slotEnd: e,
    shortOf: e + r,
    lowest: belly + joint.stop,
    highest: { front: inside.front - joint.stop, back: inside.back - joint.stop },
    cheek: edges,
    outside: { width: inside.width + 2 * layers * t, depth },
    belly,
    rake: arctangent(back.drop - front.drop, depth),
    tierDepth: tier && tier.slats * tier.slat + (tier.slats - 1) * tier.gap,
  };
}

/**
 * Which rail style is made. Full-thickness ends need no second setup, but the cheeks must stand out far
 * enough to leave the stop's wood in front of the housing; without that, fewest flips is still inner.
 */
function railStyle(design: Design): RailStyle {
  const { rails, stop } = design.joint;
  if (design.layers) return "full";
  if (rails !== "fewest-flips") return rails;
  const least = fullStyleOverhang(design, stop);
  const { front, back } = design.cheek.overhang;
  return Math.min(front, back) >= least ? "full" : "inner";
}

/** How long the tongues of a layered base are in the rails: they end short of the outside where the sheet is thinnest. */
export function railTongue({ sheet, joint }: Design): number {
  return Math.floor(10 * (sheet.thickness.min - joint.clearance.end)) / 10;
}

/** How far cheeks must stand out over full-thickness rail ends to keep the stop. */
export function fullStyleOverhang(design: Design, stop: number = design.joint.stop): number {
  const { mean, max } = design.sheet.thickness;
  return stop + max - mean + design.joint.clearance.side;
}
