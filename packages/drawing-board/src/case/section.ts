import { cutPatterns, fromRight, sectionView } from "@dryfit/drawing";
import { type CaseOnPaper, derived, driving, framed, shifted } from "./frame.ts";
import { across, leader, upright } from "./lines.ts";
import type { Figure, ViewSpec } from "./view-spec.ts";

const ROOM = { left: 28, right: 28, top: 25, bottom: 33 };

/** Through the middle from front to back: the inside measures, the sheet's thickness, the tier's height. */
export function section(on: CaseOnPaper, scale: number): ViewSpec {
  const { design, assembly, numbers } = on;
  const { inside, tier } = design;
  const { view, at, box, size } = framed(on, fromRight, scale, ROOM);
  const front = upright(at({ y: box.min.y, z: 0 }), at({ y: box.min.y, z: inside.front }), -14);
  const back = upright(at({ y: box.max.y, z: 0 }), at({ y: box.max.y, z: inside.back }), 14);
  const depth = across(at({ y: 0, z: box.min.z }), at({ y: inside.depth, z: box.min.z }), 12);
  const wood = at({ y: inside.depth * 0.3, z: -numbers.t / 2 });
  const thick = shifted(wood, 0, 12);
  const readings = design.sheet.readings.length > 1;
  const thickness: readonly Figure[] = readings
    ? []
    : [
        driving(
          "sheet.thickness",
          "Sheet thickness as measured",
          design.sheet.thickness.mean,
          thick,
          "length",
          "t",
        ),
      ];
  const tierFront = tier
    ? inside.depth - (numbers.tierDepth ?? 0) - (tier.swing > 0 ? tier.pin : tier.clearance)
    : 0;
  const clear = tier ? across(at({ y: 0, z: 0 }), at({ y: tierFront, z: 0 }), -9) : null;
  const height = tier ? upright(at({ y: tierFront, z: 0 }), at({ y: tierFront, z: tier.height }), -6) : null;
  return {
    id: "section",
    title: "Section through the middle",
    size,
    scale,
    description: "The case cut through its middle, seen from the right: base, rails and tier.",
    body: [
      cutPatterns("section"),
      sectionView(assembly, fromRight, view, inside.width / 2, "section"),
      front.lines,
      back.lines,
      depth.lines,
      readings ? "" : leader(wood, shifted(thick, 0, -3)),
      clear?.lines ?? "",
      height?.lines ?? "",
    ].join(""),
    figures: [
      driving("inside.front", "Inside height in front", inside.front, front.at),
      driving("inside.back", "Inside height behind", inside.back, back.at),
      ...(tier && height
        ? [driving("tier.height", "Tier: height over the floor", tier.height, height.at)]
        : []),
      ...thickness,
      driving("inside.depth", "Inside depth", inside.depth, depth.at),
      ...(clear ? derived(on, "tier.front", clear.at) : []),
    ],
    handles: [],
    places: {
      "rail-front": at({ y: 0, z: inside.front }),
      "rail-back": at({ y: inside.depth, z: inside.back }),
      base: at({ y: inside.depth * 0.6, z: -numbers.t }),
      "joint.rails": at({ y: -numbers.t, z: inside.front }),
      inside: at({ y: inside.depth / 2, z: 0 }),
      ...(readings ? { "sheet.thickness": wood } : {}),
    },
  };
}
