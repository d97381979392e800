import {
  add,
  circle,
  type Loop,
  type Placement,
  type Point,
  place,
  placeCurve,
  placement,
  point,
  roundedRectangle,
} from "@dryfit/geometry";
import type { Point3, Pose } from "./assembly.ts";
import type { Design, EdgeName, OpeningRules } from "./design.ts";
import { cutShape } from "./drawn-opening.ts";
import type { CaseNumbers } from "./numbers.ts";
import type { Bore, Feature, Part } from "./part.ts";
import { panelFromCase } from "./pose.ts";
import { presets } from "./presets.ts";
import { reliefOf, relievedBox } from "./relief.ts";
import { tierSpan } from "./tier.ts";

/** The panels that may have openings, and from which edges a place is measured on each: one across, one up. */
export function edgesOn(panel: string): readonly (readonly EdgeName[])[] {
  if (/^cheek-/.test(panel))
    return [
      ["front", "back"],
      ["floor", "bottom"],
    ];
  if (/^rail-/.test(panel))
    return [
      ["left", "right"],
      ["floor", "bottom", "top"],
    ];
  return [
    ["left", "right"],
    ["front", "back"],
  ];
}

/** Names of the panels that a design has. */
export function panelsOf({ tier }: Design): string[] {
  const slats = Array.from({ length: tier?.slats ?? 0 }, (_, i) => `slat-${i + 1}`);
  return ["cheek-left", "cheek-right", "base", "rail-front", "rail-back", ...slats];
}

/** The panel with its openings cut into it. */
export function withOpenings(part: Part, pose: Pose, design: Design, numbers: CaseNumbers): Part {
  const own = design.openings.filter((o) => o.panel === part.id);
  if (own.length === 0) return part;
  const added = own.flatMap((o) => openingFeatures(o, pose, design, numbers));
  return { ...part, features: [...part.features, ...added] };
}

/** What one opening cuts into its panel. */
export function openingFeatures(
  o: OpeningRules,
  pose: Pose,
  design: Design,
  numbers: CaseNumbers,
): readonly Feature[] {
  return featuresOf(o, middleOf(o, pose, design, numbers), numbers, drawnLoops(o, design, numbers));
}

/** The middle of an opening in the panel frame. */
function middleOf(o: OpeningRules, pose: Pose, design: Design, numbers: CaseNumbers): Point<"panel"> {
  const edges = edgePlaces(o.panel, design, numbers);
  const told = Object.entries(o.from).flatMap(([name, by]) => {
    const edge = edges[name as EdgeName];
    return edge ? [[edge.axis, edge.at + edge.way * by] as const] : [];
  });
  const placed: Point3 = { x: 0, y: 0, z: 0, ...Object.fromEntries(told) };
  return panelFromCase(pose, placed);
}

/** A line in the case frame that an opening's place is measured from, and which way into the panel. */
export interface EdgePlace {
  readonly axis: "x" | "y" | "z";
  readonly at: number;
  readonly way: 1 | -1;
}

/** Where the edges of a panel lie that openings are measured from. */
export function edgePlaces(
  panel: string,
  design: Design,
  numbers: CaseNumbers,
): Partial<Record<EdgeName, EdgePlace>> {
  const { inside, tier } = design;
  const between = (axis: "x" | "y" | "z", from: number, to: number) =>
    [
      { axis, at: from, way: 1 },
      { axis, at: to, way: -1 },
    ] as const;
  const [left, right] = between("x", 0, inside.width);
  const [bottom] = between("z", numbers.belly, 0);
  const [floor] = between("z", 0, 0);
  if (panel.startsWith("cheek-")) {
    const [front, back] = between("y", numbers.cheek.min, numbers.cheek.max);
    return { front, back, floor, bottom };
  }
  if (panel.startsWith("rail-")) {
    const top: EdgePlace = {
      axis: "z",
      at: panel === "rail-front" ? inside.front : inside.back,
      way: -1,
    };
    return { left, right, floor, bottom, top };
  }
  if (panel === "base" || tier === null) {
    const [front, back] = between("y", 0, inside.depth);
    return { left, right, front, back };
  }
  const y = tierSpan(design, numbers, tier).min + (Number(panel.slice(5)) - 1) * (tier.slat + tier.gap);
  const [front, back] = between("y", y, y + tier.slat);
  const [slatLeft, slatRight] = between("x", tier.clearance, inside.width - tier.clearance);
  return { left: slatLeft, right: slatRight, front, back };
}

/** The contours of a drawing, as the cutter leaves them; null where the opening is a preset. */
function drawnLoops(o: OpeningRules, design: Design, { r }: CaseNumbers): readonly Loop<"preset">[] | null {
  if (o.drawing === null) return null;
  const shape = design.drawn[`openings[${design.openings.indexOf(o)}].file`];
  return shape ? cutShape(shape, r).loops : [];
}

/** What a preset cuts: through loops, screw holes, and a pocket from face A that thins the wood. */
function featuresOf(
  o: OpeningRules,
  middle: Point<"panel">,
  numbers: CaseNumbers,
  drawn: readonly Loop<"preset">[] | null,
): Feature[] {
  const panelFromPreset: Placement<"panel", "preset"> = placement(middle, {
    quarters: (o.turn / 90) as 0 | 1 | 2 | 3,
  });
  // A hole that the cutter does not fit into is drilled.
  const { hole = 0, pocket = 0, leave = 0, screw = 0 } = o.size;
  const drilled = hole > 0 && hole < 2 * numbers.r;
  const loops = (drilled ? [] : (drawn ?? loopsOf(o, numbers.r))).map(
    (loop) => placeCurve(panelFromPreset, loop) as Loop<"panel">,
  );
  const { title } = presets[o.shape];
  const named = (i: number): string => (i === 0 ? o.id : `${o.id}-${i + 1}`);
  const cuts: Feature[] = [
    ...loops.map((loop, i): Feature => ({ kind: "opening", id: named(i), loop, title })),
    ...(drilled ? [bore(o.id, middle, hole)] : []),
    ...screwsOf(o).map((at, i) => bore(`${o.id}-screw-${i + 1}`, place(panelFromPreset, at), screw)),
  ];
  if (!(pocket > hole) || leave >= numbers.t) return cuts;
  return [
    {
      kind: "recess",
      id: `${o.id}-pocket`,
      face: "A",
      region: { outer: circle(middle, pocket / 2), holes: [] },
      depth: numbers.t - leave,
      purpose: "counterbore",
    },
    ...cuts,
  ];
}

function loopsOf(o: OpeningRules, r: number): Loop<"preset">[] {
  const { shape, size } = o;
  const { width = 0, height = 0, hole = 0, corner = 0, count = 1, pitch = 0 } = size;
  const box = (middle: Point<"preset">, radius: number): Loop<"preset"> =>
    roundedRectangle<"preset">(
      add(middle, point(-width / 2, -height / 2)),
      add(middle, point(width / 2, height / 2)),
      Math.min(radius, width / 2, height / 2),
    );
  if (shape === "vent") {
    return Array.from({ length: count }, (_, i) =>
      box(point(0, (i - (count - 1) / 2) * pitch), Math.min(width, height) / 2),
    );
  }
  if (hole > 0) return [circle(point<"preset">(0, 0), hole / 2)];
  const relief = reliefOf(o, r);
  if (relief !== "none") return [relievedBox(width, height, { relief, r })];
  return [box(point(0, 0), shape === "slot" || shape === "handle" ? Math.min(width, height) / 2 : corner)];
}

/** Two screws: beside the opening, or on a diagonal where they stand at different heights. */
function screwsOf({ size }: OpeningRules): Point<"preset">[] {
  const { apart, rise = 0, screw = 0 } = size;
  if (apart === undefined || screw === 0) return [];
  return [point(apart / 2, rise / 2), point(-apart / 2, -rise / 2)];
}

function bore(id: string, at: Point<"panel">, diameter: number): Bore {
  return { kind: "bore", id, face: "A", at, diameter, depth: null };
}
