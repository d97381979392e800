import type { Box3, Joint } from "./assembly.ts";
import type { Design, LayerRules } from "./design.ts";
import { type LayerSlots, layerIds, tongueIn } from "./layer-slots.ts";
import { type CaseNumbers, railTongue, type Span } from "./numbers.ts";

/** Every tongue of a layered case and the slot it stands in. */
export function layeredJoints(
  design: Design,
  numbers: CaseNumbers,
  layers: LayerRules,
  slots: LayerSlots,
): Joint[] {
  const { width, depth } = design.inside;
  const { t } = numbers;
  const l = design.joint.tongue.length;
  const short = railTongue(design);
  const { side, end } = design.joint.clearance;
  const fit = { side, end, alongLeast: numbers.slotEnd };
  const floor: Span = { min: -t, max: 0 };
  const ends = [
    { side: "left", into: "-x", x: { min: -l, max: 0 } },
    { side: "right", into: "+x", x: { min: width, max: width + l } },
  ] as const;
  const rails = [
    { name: "front", into: "-y", y: { min: -short, max: 0 }, thick: { min: -t, max: 0 } },
    {
      name: "back",
      into: "+y",
      y: { min: depth, max: depth + short },
      thick: { min: depth, max: depth + t },
    },
  ] as const;
  const inCheek = (cheek: "left" | "right", feature: string): Joint["housing"] => {
    const [part, ...behind] = layerIds(`cheek-${cheek}`, layers);
    return { part: part!, feature, behind };
  };
  return [
    ...ends.flatMap(({ side: cheek, into, x }) =>
      slots.base.map(
        (slot, i): Joint => ({
          id: `base-${cheek}-${i + 1}`,
          tongue: { part: "base", box: box(x, tongueIn(slot, numbers), floor) },
          housing: inCheek(cheek, `slot-base-${i + 1}`),
          into,
          across: "z",
          along: "y",
          fit,
          // No rebate, so no face closes beside the slot.
          shoulder: false,
        }),
      ),
    ),
    ...rails.flatMap(({ name, into, y }) =>
      slots.rails.map(
        (slot, i): Joint => ({
          id: `base-${name}-${i + 1}`,
          tongue: { part: "base", box: box(tongueIn(slot, numbers), y, floor) },
          housing: { part: `rail-${name}`, feature: `slot-${i + 1}` },
          into,
          across: "z",
          along: "x",
          fit,
          // No rebate, so no face closes beside the slot.
          shoulder: false,
          through: true,
        }),
      ),
    ),
    ...rails.flatMap(({ name, thick }) =>
      ends.flatMap(({ side: cheek, into, x }) =>
        slots[name].map(
          (slot, i): Joint => ({
            id: `rail-${name}-${cheek}-${i + 1}`,
            tongue: { part: `rail-${name}`, box: box(x, thick, tongueIn(slot, numbers)) },
            housing: inCheek(cheek, `slot-${name}-${i + 1}`),
            into,
            across: "y",
            along: "z",
            fit,
            // No rebate, so no face closes beside the slot.
            shoulder: false,
          }),
        ),
      ),
    ),
  ];
}

function box(x: Span, y: Span, z: Span): Box3 {
  return { min: { x: x.min, y: y.min, z: z.min }, max: { x: x.max, y: y.max, z: z.max } };
}
