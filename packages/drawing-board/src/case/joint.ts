import { cutPatterns, el, fromFront, sectionView } from "@dryfit/drawing";
import { type CaseOnPaper, derived, driving, shifted } from "./frame.ts";
import { across, leader, upright } from "./lines.ts";
import type { ViewSpec } from "./view-spec.ts";

const ROOM = { left: 34, right: 34, top: 26, bottom: 22 };
const SCALE = 2;

/** The base's tongue in the left cheek, enlarged: tongue, housing and the air between them. */
export function jointView(on: CaseOnPaper, width: number): readonly ViewSpec[] {
  const { design, assembly, numbers } = on;
  const joint = assembly.joints.find(
    ({ tongue, into, across: over }) => tongue.part === "base" && into === "-x" && over === "z",
  );
  if (!joint) return [];
  const window = { width: Math.max(30, Math.min(62, width - ROOM.left - ROOM.right)), height: 62 };
  const { min, max } = joint.tongue.box;
  const centre = { x: (min.x + max.x) / 2, z: (min.z + max.z) / 2 };
  const view = {
    scale: SCALE,
    origin: {
      x: ROOM.left + window.width / 2 - centre.x * SCALE,
      y: ROOM.top + window.height / 2 + centre.z * SCALE,
    },
  };
  const at = (x: number, z: number) => ({ x: view.origin.x + x * SCALE, y: view.origin.y - z * SCALE });
  const { tongue, clearance, stop } = design.joint;
  const right = ROOM.left + window.width;
  const thick = upright({ x: right, y: at(0, min.z).y }, { x: right, y: at(0, max.z).y }, 14);
  const long = across({ x: at(min.x, 0).x, y: ROOM.top }, { x: at(max.x, 0).x, y: ROOM.top }, -6);
  const side = { x: 17, y: at(0, max.z).y - 12 };
  const end = { x: 17, y: at(0, centre.z).y + 3 };
  const deep = across(
    { x: at(min.x - clearance.end, 0).x, y: ROOM.top + window.height },
    { x: at(max.x, 0).x, y: ROOM.top + window.height },
    11,
  );
  const stopAt = { x: 17, y: at(0, min.z).y + 16 };
  const clip = "joint-clip";
  const frame = { x: ROOM.left, y: ROOM.top, ...window };
  return [
    {
      id: "joint",
      title: "Base in the left cheek",
      size: { width: ROOM.left + window.width + ROOM.right, height: ROOM.top + window.height + ROOM.bottom },
      scale: SCALE,
      description: "The base's tongue in its housing in the left cheek, twice its size.",
      body: [
        cutPatterns("joint"),
        el("clipPath", { id: clip }, el("rect", frame)),
        el(
          "g",
          { "clip-path": `url(#${clip})` },
          sectionView(assembly, fromFront, view, design.inside.depth / 2, "joint"),
        ),
        el("rect", { class: "detail-edge", ...frame }),
        thick.lines,
        long.lines,
        deep.lines,
        leader(shifted(side, 11, 0), at(min.x / 2, max.z + clearance.side / 2)),
        leader(shifted(end, 11, 0), at(min.x - clearance.end / 2, centre.z)),
        leader(shifted(stopAt, 11, 0), at(min.x / 2, (min.z - clearance.side - numbers.t) / 2)),
      ].join(""),
      figures: [
        driving("joint.tongue.length", "Tongues: length", tongue.length, long.at),
        driving("joint.tongue.thickness", "Tongues: thickness", tongue.thickness, thick.at),
        driving(
          "joint.clearance.side",
          "Air beside tongues, each side",
          clearance.side,
          side,
          "length",
          "beside",
        ),
        driving("joint.clearance.end", "Air under tongues", clearance.end, end, "length", "under"),
        driving(
          "joint.stop",
          "Least wood between a housing and the cheek's edge",
          stop,
          stopAt,
          "length",
          "leave",
        ),
        ...derived(on, "housing.depth", deep.at),
      ],
      handles: [],
      places: { joint: at(min.x, max.z), "joint.clearance": at(min.x, max.z) },
    },
  ];
}
