import {
  type Box,
  boundsOf,
  circle,
  contains,
  distance,
  distanceTo,
  type Loop,
  type Point,
  point,
  SAME_POINT_MM,
} from "@dryfit/geometry";
import type { Design, LayerRules } from "./design.ts";
import type { Finding } from "./finding.ts";
import { finding } from "./findings.ts";
import { formatLength } from "./length.ts";
import type { Bore, Feature, Part } from "./part.ts";

/** Least wood round a pin, mm; common practice, no source. */
const ROUND_PIN_MM = 5;

/** Places are tried this far apart, mm, or a share of the part's length where that is more. */
const STEP_MM = 4;
const STEPS = 40;

/**
 * Holes for the pins that keep a cheek's layers in place, as far from each other as its wood allows: the first
 * nearest the lower left, then each as far as it can be from those before it.
 */
export function pinHoles({ outline, features }: Part, { pins }: LayerRules): readonly Bore[] {
  const free = placesFor(outline, features, pins.diameter / 2 + ROUND_PIN_MM);
  const chosen: Point<"panel">[] = [];
  while (chosen.length < Math.min(pins.count, free.length)) {
    const apart = (p: Point<"panel">): number =>
      chosen.length === 0 ? -(p.x + p.y) : Math.min(...chosen.map((q) => distance(p, q)));
    const next = free.reduce((best, p) => (apart(p) > apart(best) + SAME_POINT_MM ? p : best));
    if (chosen.length > 0 && apart(next) < pins.diameter + ROUND_PIN_MM) break;
    chosen.push(next);
  }
  return chosen.map((at, i) => ({
    kind: "bore",
    id: `pin-${i + 1}`,
    face: "A",
    at,
    diameter: pins.diameter,
    depth: null,
  }));
}

/** One pin lets a layer turn; fewer than asked for is told too. */
export function checkPins(
  holes: readonly Bore[],
  part: string,
  { pins }: LayerRules,
  design: Design,
): Finding[] {
  if (holes.length === pins.count) return [];
  return [
    finding(
      "pins_no_room",
      holes.length < 2 ? "error" : "warning",
      "layers.pins",
      `${part} has room for ${holes.length} of ${pins.count} pins of ${formatLength(pins.diameter, design.units)} with ${formatLength(ROUND_PIN_MM, design.units)} of wood round each.`,
      { room: holes.length, asked: pins.count },
      "Take thinner pins, or fewer.",
    ),
  ];
}

function placesFor(
  outline: Loop<"panel">,
  features: readonly Feature[],
  least: number,
): readonly Point<"panel">[] {
  const { min, max } = boundsOf(outline);
  const cut = features.map(loopOf).map((loop) => ({ loop, box: boundsOf(loop) }));
  const step = Math.max(STEP_MM, (max.x - min.x) / STEPS);
  const places: Point<"panel">[] = [];
  for (let y = min.y + least; y <= max.y - least; y += step)
    for (let x = min.x + least; x <= max.x - least; x += step) {
      const p = point<"panel">(x, y);
      if (contains(outline, p) !== "inside" || distanceTo(outline, p) < least) continue;
      const isFree = cut.every(
        ({ loop, box }) =>
          isFar(p, box, least) || (contains(loop, p) === "outside" && distanceTo(loop, p) >= least),
      );
      if (isFree) places.push(p);
    }
  return places;
}

function isFar({ x, y }: Point, { min, max }: Box, by: number): boolean {
  return x < min.x - by || x > max.x + by || y < min.y - by || y > max.y + by;
}

function loopOf(feature: Feature): Loop<"panel"> {
  if (feature.kind === "bore") return circle(feature.at, feature.diameter / 2);
  return feature.kind === "opening" ? feature.loop : feature.region.outer;
}
