import { CONTACT_MM, SAME_POINT_MM } from "@dryfit/geometry";
import type { Design, LayerRules } from "./design.ts";
import type { Finding } from "./finding.ts";
import { finding, when } from "./findings.ts";
import { slotsBetween } from "./layer-slots.ts";
import { formatLength } from "./length.ts";
import { type CaseNumbers, railTongue } from "./numbers.ts";

/** A case that is cut through only: its tongues, slots and layers, by arithmetic alone. */
export function checkLayers(design: Design, numbers: CaseNumbers, layers: LayerRules): Finding[] {
  const { joint, sheet, cutter, units } = design;
  const say = (mm: number): string => formatLength(mm, units);
  const width = numbers.thickest + 2 * joint.clearance.side;
  const deepest = (layers.count - 1) * sheet.thickness.min - joint.clearance.end;
  const shortest = Math.min(joint.tongue.length, railTongue(design));
  return [
    finding(
      "rail_style",
      "note",
      "construction",
      `Layered: every cut goes through, in one setup. Tongues are as thick as the sheet, and each cheek is glued up of ${layers.count} layers.`,
      { setups: 1, layers: layers.count },
    ),
    ...when(joint.rails === "inner", () =>
      finding(
        "tongue_full",
        "error",
        "joint.rails",
        "Inner rail tongues are cut part way into the wood; a layered case is cut through only.",
        {},
        "Make joint.rails full, or construction housed.",
      ),
    ),
    ...when(Math.abs(joint.tongue.thickness - numbers.t) > CONTACT_MM, () =>
      finding(
        "tongue_full",
        "warning",
        "joint.tongue.thickness",
        `Layered tongues are as thick as the sheet, ${say(numbers.t)}; ${say(joint.tongue.thickness)} is not used.`,
        { tongue: joint.tongue.thickness, thickness: numbers.t },
        "Leave joint.tongue.thickness out.",
      ),
    ),
    ...when(joint.tongue.length > deepest + SAME_POINT_MM, () =>
      finding(
        "tongue_long_for_layers",
        "error",
        "joint.tongue.length",
        `Tongues ${say(joint.tongue.length)} long and ${say(joint.clearance.end)} of air under them do not go into ${layers.count - 1} inner ${layers.count === 2 ? "layer" : "layers"} where the sheet is thinnest.`,
        { length: joint.tongue.length, deepest },
        `Make it ${say(Math.floor(10 * deepest) / 10)} or less, or give layers.count one more.`,
      ),
    ),
    ...when(cutter > width + SAME_POINT_MM, () =>
      finding(
        "cutter_wide",
        "error",
        "cutter",
        `The cutter is ${say(cutter)} wide, the slots ${say(width)}.`,
        { cutter, housing: width },
        `Take a cutter of ${say(width)} or less, or a thicker sheet.`,
      ),
    ),
    ...when(shortest < numbers.r - SAME_POINT_MM, () =>
      finding(
        "tongue_short_for_cutter",
        "error",
        "cutter",
        `A tongue ${say(shortest)} long is shorter than the cutter's radius, ${say(numbers.r)}: the corner at its root cannot be cut.`,
        { length: shortest, radius: numbers.r },
        "Take a smaller cutter.",
      ),
    ),
    ...checkEdgesOfBase(design, numbers, layers),
  ];
}

/** Whether the base's edges are long enough for a tongue each. The rails' ends are looked at with the crest. */
function checkEdgesOfBase(design: Design, numbers: CaseNumbers, layers: LayerRules): Finding[] {
  const { inside, joint, units } = design;
  return (["width", "depth"] as const).flatMap((key) => {
    const room = slotsBetween(0, inside[key], design, numbers, layers)[0]!;
    const length = room.max - room.min - 2 * numbers.shortOf;
    return when(length < joint.piece, () =>
      finding(
        "layered_edge_short",
        "error",
        `inside.${key}`,
        `A tongue on the base's edge of ${formatLength(inside[key], units)} would be ${formatLength(Math.max(0, length), units)} wide; ${formatLength(joint.piece, units)} is the least that holds.`,
        { length, least: joint.piece },
        `Make inside.${key} ${formatLength(Math.ceil(joint.piece - length), units)} more, or lower joint.stop.`,
      ),
    );
  });
}
