import { layeredJoint, leastOverhang } from "./defaults.ts";
import type { Design, LayerRules } from "./design.ts";

/** What a housed case comes to where it is cut through only. */
export interface Layered {
  readonly design: Design;
  /** The changes to the design file that make it so. */
  readonly edits: readonly DesignEdit[];
}

/** A value of a design file that is written anew; null: it is left out. */
export interface DesignEdit {
  readonly path: string;
  readonly value: string | null;
}

/** The same case from through cuts only: as much of it as can stay does. */
export function asLayered(design: Design): Layered {
  const { joint, sheet, cheek } = design;
  const layers: LayerRules = { count: 2, tongue: 40, apart: 25, pins: { count: 3, diameter: 5 } };
  const { clearance, stop, piece } = joint;
  const own = layeredJoint({ clearance, stop, piece }, sheet.thickness, layers);
  const least = leastOverhang(own, sheet.thickness);
  const overhang = {
    front: Math.max(cheek.overhang.front, least),
    back: Math.max(cheek.overhang.back, least),
  };
  const wider = (["front", "back"] as const).filter((end) => overhang[end] > cheek.overhang[end]);
  return {
    design: { ...design, layers, joint: own, cheek: { ...cheek, overhang } },
    edits: [
      { path: "construction", value: "layered" },
      { path: "joint.tongue", value: null },
      ...(joint.rails === "inner" ? [{ path: "joint.rails", value: "full" }] : []),
      ...wider.map((end) => ({ path: `cheek.overhang.${end}`, value: `${overhang[end]} mm` })),
    ],
  };
}
