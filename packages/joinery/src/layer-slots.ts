import type { HousingReach } from "./cheek.ts";
import type { Design, LayerRules } from "./design.ts";
import type { CaseNumbers, Span } from "./numbers.ts";

/** Where a layered case has its slots, in the case frame. */
export interface LayerSlots {
  /** For the base in the cheeks, in y, and in the rails, in x. */
  readonly base: readonly Span[];
  readonly rails: readonly Span[];
  /** For the rails in the cheeks, in z. */
  readonly front: readonly Span[];
  readonly back: readonly Span[];
}

/** Slots all along the panels, with wood between them: one long slot would cut its panel in two. */
export function layerSlots(
  design: Design,
  numbers: CaseNumbers,
  layers: LayerRules,
  reach: HousingReach,
): LayerSlots {
  const { depth, width } = design.inside;
  return {
    // Beside the base's slots stand the rails', which reach as far inwards as their clearance.
    base: slotsBetween(0, depth, design, numbers, layers),
    rails: slotsBetween(0, width, design, numbers, layers),
    front: evenly(reach.front, numbers, layers),
    back: evenly(reach.back, numbers, layers),
  };
}

/** Slots along an edge of the base that runs from one panel's inside to the other's. */
export function slotsBetween(
  from: number,
  to: number,
  { joint }: Design,
  numbers: CaseNumbers,
  layers: LayerRules,
): readonly Span[] {
  const inset = joint.stop + joint.clearance.side;
  return evenly({ min: from + inset, max: to - inset }, numbers, layers);
}

/** What stands in a slot: short of its round ends, and of the round corners at its own root. */
export function tongueIn(slot: Span, numbers: CaseNumbers): Span {
  return { min: slot.min + numbers.shortOf, max: slot.max - numbers.shortOf };
}

/** Names of a cheek's layers, from the inside out. */
export function layerIds(cheek: string, { count }: LayerRules): readonly string[] {
  const inner = Array.from({ length: count - 1 }, (_, i) => (count === 2 ? "inner" : `inner-${i + 1}`));
  return [...inner, "outer"].map((name) => `${cheek}-${name}`);
}

/** Slots of one length, about as long as asked, that fill the span with the asked wood between them. */
function evenly(span: Span, { shortOf }: CaseNumbers, { tongue, apart }: LayerRules): readonly Span[] {
  const length = span.max - span.min;
  const count = Math.max(1, Math.round((length + apart) / (tongue + 2 * shortOf + apart)));
  const each = (length - (count - 1) * apart) / count;
  return Array.from({ length: count }, (_, i) => {
    const min = span.min + i * (each + apart);
    return { min, max: min + each };
  });
}
