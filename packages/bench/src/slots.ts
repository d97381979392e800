import {
  boundsOf,
  meetings,
  type Point,
  point,
  type Region,
  roundedRectangle,
  SAME_POINT_MM,
  type Segment,
  segments,
} from "@dryfit/geometry";
import { type Assembly, type Joint, type Part, panelFromCase, type Recess } from "@dryfit/joinery";
import { tightestInside } from "./corners.ts";

/** A straight stretch of a housing or groove, in the panel frame seen from face A, mm. */
export interface Slot {
  readonly part: Part;
  readonly recess: Recess;
  /** Along which axis of the panel it runs. */
  readonly run: "x" | "y";
  readonly walls: readonly [number, number];
  readonly ends: readonly [number, number];
  /** Whether it runs out over the part's edge at each end. */
  readonly open: readonly [boolean, boolean];
  /** Radius of its closed ends' corners. */
  readonly corner: number;
  readonly joints: readonly string[];
}

/** The straight slots that the case's tongues stand in. A housing of several stretches gives one each. */
export function slotsOf(assembly: Assembly): readonly Slot[] {
  const found = assembly.joints.flatMap((joint) => {
    const slot = slotOf(assembly, joint);
    return slot ? [slot] : [];
  });
  const slots: Slot[] = [];
  for (const slot of found) {
    const i = slots.findIndex((other) => isSame(other, slot));
    if (i < 0) slots.push(slot);
    else slots[i] = { ...slots[i]!, joints: [...slots[i]!.joints, ...slot.joints] };
  }
  return slots;
}

/** The slot as the region that is cut, without what runs out over the edge. */
export function regionOfSlot({ run, walls, ends, open, corner }: Slot): Region<"panel"> {
  const radius = open[0] || open[1] ? 0 : corner;
  const along = run === "x";
  const min = along ? point<"panel">(ends[0], walls[0]) : point<"panel">(walls[0], ends[0]);
  const max = along ? point<"panel">(ends[1], walls[1]) : point<"panel">(walls[1], ends[1]);
  return { outer: roundedRectangle(min, max, radius), holes: [] };
}

function slotOf({ parts, poses }: Assembly, joint: Joint): Slot | null {
  const part = parts.find(({ id }) => id === joint.housing.part);
  const pose = poses[joint.housing.part];
  const recess = part?.features.find((f) => f.kind === "recess" && f.id === joint.housing.feature);
  if (!part || !pose || recess?.kind !== "recess") return null;
  const { min, max } = joint.tongue.box;
  const middle = panelFromCase(pose, {
    x: (min.x + max.x) / 2,
    y: (min.y + max.y) / 2,
    z: (min.z + max.z) / 2,
  });
  const run = pose.x[1] === joint.along ? "x" : "y";
  const across = run === "x" ? "y" : "x";
  const ends = stretchThrough(recess.region, middle, run);
  const walls = stretchThrough(recess.region, middle, across);
  if (!ends || !walls) return null;
  const box = boundsOf(part.outline);
  const open = [ends[0] - box.min[run] < SAME_POINT_MM, box.max[run] - ends[1] < SAME_POINT_MM] as const;
  return { part, recess, run, walls, ends, open, corner: tightestInside(recess.region), joints: [joint.id] };
}

/** From edge to edge of the region, on the line through a point along an axis; null where the point lies outside. */
function stretchThrough(
  region: Region<"panel">,
  through: Point<"panel">,
  axis: "x" | "y",
): readonly [number, number] | null {
  const far = 1e5;
  const ray: Segment<"panel"> = {
    kind: "line",
    from: { ...through, [axis]: -far },
    to: { ...through, [axis]: far },
  };
  const met = [region.outer, ...region.holes]
    .flatMap((loop) => segments(loop))
    .flatMap((side) => meetings(ray, side))
    .map((p) => p[axis]);
  const below = Math.max(...met.filter((v) => v <= through[axis]));
  const above = Math.min(...met.filter((v) => v >= through[axis]));
  return Number.isFinite(below) && Number.isFinite(above) ? [below, above] : null;
}

function isSame(a: Slot, b: Slot): boolean {
  const figures = ({ walls, ends }: Slot) => [...walls, ...ends];
  return (
    a.recess === b.recess &&
    a.run === b.run &&
    figures(a).every((v, i) => Math.abs(v - figures(b)[i]!) < SAME_POINT_MM)
  );
}
