import type { Design, LayerRules } from "./design.ts";
import type { Explanation } from "./explain.ts";
import { entry, type Given, sum, type Term } from "./explain-sums.ts";
import { slotsBetween } from "./layer-slots.ts";
import { type CaseNumbers, railTongue } from "./numbers.ts";

/** The sums of a case that is cut through only. */
export function explainLayers(
  design: Design,
  n: CaseNumbers,
  layers: LayerRules,
  g: Given,
): readonly Explanation[] {
  const count: Term = ["layers.count", layers.count];
  const short: Term = ["tongues in the rails", railTongue(design)];
  const shortOf: Term = ["short of a slot's end", n.shortOf];
  const [along] = slotsBetween(0, design.inside.width, design, n, layers);
  const slot: Term = ["slot in the rails", along!.max - along!.min];
  return [
    entry("base.x", "Base across", sum`${g.width} + 2 × ${g.length}`, n.base.x),
    entry("base.y", "Base from front to back", sum`${g.depth} + 2 × ${short}`, n.base.y),
    entry("rail.length", "Rails' length", sum`${g.width} + 2 × ${g.length}`, n.rails.length),
    entry(
      "rail-front.height",
      "Front rail's height",
      sum`${g.front} + ${g.thickest} + ${g.side} + ${g.stop}`,
      n.rails.front,
    ),
    entry(
      "rail-back.height",
      "Back rail's height",
      sum`${g.back} + ${g.thickest} + ${g.side} + ${g.stop}`,
      n.rails.back,
    ),
    entry("housing.depth", "Depth of the slots in a cheek", sum`(${count} − 1) × ${g.t}`, n.recessDepth),
    entry(
      "housing.width",
      "Width of all slots",
      sum`${g.thickest} + 2 × ${g.side}`,
      n.thickest + 2 * g.side[1],
    ),
    entry("cutter.radius", "Radius of inside corners", sum`${g.cutter} / 2`, n.r),
    entry(
      "slot-end",
      "A tongue stays short of a round slot end by",
      sum`${g.r} − √(${g.r}² − (${g.r} − ${g.side})²)`,
      n.slotEnd,
    ),
    entry(
      "tongue.short",
      "A tongue ends before its slot by",
      sum`${["slot end", n.slotEnd]} + ${g.r}`,
      n.shortOf,
    ),
    entry(
      "tongue.width",
      "Width of a tongue in the rails",
      sum`${slot} − 2 × ${shortOf}`,
      slot[1] - 2 * n.shortOf,
    ),
  ];
}
