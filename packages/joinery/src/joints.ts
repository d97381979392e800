import type { Box3, Direction, Joint } from "./assembly.ts";
import type { HousingReach } from "./cheek.ts";
import type { Design } from "./design.ts";
import type { CaseNumbers, Span } from "./numbers.ts";
import { type RailName, tonguePieces } from "./rail.ts";

/** Every tongue and the recess it stands in. */
export function jointsOf(design: Design, numbers: CaseNumbers, reach: HousingReach): Joint[] {
  const { width, depth } = design.inside;
  const { thickness: k, length: l } = design.joint.tongue;
  const floor: Span = { min: -k, max: 0 };
  const ends = [
    { side: "left", into: "-x", x: { min: -l, max: 0 } },
    { side: "right", into: "+x", x: { min: width, max: width + l } },
  ] as const;
  const common = { fit: fitOf(design, numbers.slotEnd) };
  return [
    ...ends.map(
      ({ side, into, x }): Joint => ({
        ...common,
        id: `base-${side}`,
        tongue: { part: "base", box: box(x, { min: 0, max: depth }, floor) },
        housing: { part: `cheek-${side}`, feature: "housing" },
        into,
        across: "z",
        along: "y",
        shoulder: true,
      }),
    ),
    ...(["front", "back"] as const).map(
      (name): Joint => ({
        id: `base-${name}`,
        // The groove runs out at both ends: nothing stops the tongue along it.
        fit: fitOf(design, 0),
        tongue: {
          part: "base",
          box: box(
            { min: 0, max: width },
            name === "front" ? { min: -l, max: 0 } : { min: depth, max: depth + l },
            floor,
          ),
        },
        housing: { part: `rail-${name}`, feature: "groove" },
        into: (name === "front" ? "-y" : "+y") as Direction,
        across: "z",
        along: "x",
        shoulder: true,
      }),
    ),
    ...(["front", "back"] as const).flatMap((name) =>
      ends.flatMap(({ side, into, x }) =>
        tonguePieces(design, numbers, reach[name]).map(
          (z, i, all): Joint => ({
            ...common,
            id: all.length > 1 && i === 0 ? `rail-${name}-${side}-lower` : `rail-${name}-${side}`,
            tongue: { part: `rail-${name}`, box: box(x, thickness(design, numbers, name), z) },
            housing: { part: `cheek-${side}`, feature: "housing" },
            into,
            across: "y",
            along: "z",
            // A full-thickness end has no rebate, so no face closes beside its housing.
            shoulder: numbers.style === "inner",
          }),
        ),
      ),
    ),
  ];
}

function thickness(design: Design, numbers: CaseNumbers, name: RailName): Span {
  const thick = numbers.style === "inner" ? design.joint.tongue.thickness : numbers.t;
  const { depth } = design.inside;
  return name === "front" ? { min: -thick, max: 0 } : { min: depth, max: depth + thick };
}

function fitOf(design: Design, alongLeast: number): Joint["fit"] {
  const { side, end } = design.joint.clearance;
  return { side, end, alongLeast };
}

function box(x: Span, y: Span, z: Span): Box3 {
  return { min: { x: x.min, y: y.min, z: z.min }, max: { x: x.max, y: y.max, z: z.max } };
}
