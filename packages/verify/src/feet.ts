import { SAME_POINT_MM } from "@dryfit/geometry";
import type { Point3 } from "@dryfit/joinery";
import { cross3, dot3, minus, norm, times } from "./solids-vector.ts";

/** How a case stands on a flat table, mm. */
export interface Footing {
  /** The lowest corner of wood at each foot, in the order of the design's feet. */
  readonly feet: readonly Point3[];
  /** Most that a foot hangs over the table while the case stands on three others. */
  readonly rocking: number;
  /** How far the lowest wood reaches below the lowest foot; 0 where the feet are lowest. */
  readonly below: number;
  /** From the centre of mass, seen from above, to the nearest edge of the feet's polygon; negative: it tips. */
  readonly tipMargin: number;
}

/**
 * Stands the case on a table that is square to the plane of the designed feet, by its corners of wood as cut.
 * Null where the design names fewer than three feet, or all in a line.
 */
export function footingOf(
  designed: readonly Point3[],
  corners: readonly Point3[],
  centreOfMass: Point3,
): Footing | null {
  const up = upwards(designed);
  if (up === null || corners.length === 0) return null;
  const feet = designed.map((foot) => lowestNear(foot, corners, up));
  const ground = Math.min(...feet.map((foot) => dot3(foot, up)));
  const lowest = corners.reduce((least, corner) => Math.min(least, dot3(corner, up)), ground);
  return {
    feet,
    rocking: rockingOf(feet, centreOfMass, up),
    below: ground - lowest,
    tipMargin: tipMargin(feet, centreOfMass, up),
  };
}

/** A foot's corner is looked for this near to the place that the design names, mm. */
const FOOT_REACH_MM = 20;

function lowestNear(foot: Point3, corners: readonly Point3[], up: Point3): Point3 {
  const distance = (corner: Point3) => norm(minus(corner, foot));
  const near = corners.filter((corner) => distance(corner) < FOOT_REACH_MM);
  return near.length > 0 ? least(near, (corner) => dot3(corner, up)) : least(corners, distance);
}

/** The feet's common normal, towards the sky. */
function upwards(feet: readonly Point3[]): Point3 | null {
  const normals = triples(feet).map(([a, b, c]) => cross3(minus(b, a), minus(c, a)));
  if (normals.length === 0) return null;
  const widest = least(normals, (normal) => -norm(normal));
  return norm(widest) < SAME_POINT_MM ? null : times(widest, Math.sign(widest.z) / norm(widest));
}

/**
 * What a foot lacks while the case stands on three others: on any three that no foot reaches below and that
 * have the centre of mass between them, for on those alone it stays.
 */
function rockingOf(feet: readonly Point3[], centre: Point3, up: Point3): number {
  const gaps = triples(feet).flatMap((three) => {
    const [a, b, c] = three;
    const normal = cross3(minus(b, a), minus(c, a));
    const steep = dot3(normal, up);
    if (Math.abs(steep) < SAME_POINT_MM || tipMargin(three, centre, up) < -SAME_POINT_MM) return [];
    const over = feet.map((foot) => dot3(minus(foot, a), normal) / steep);
    return Math.min(...over) < -SAME_POINT_MM ? [] : [Math.max(...over)];
  });
  return Math.max(0, ...gaps);
}

function tipMargin(feet: readonly Point3[], centre: Point3, up: Point3): number {
  const margins = feet.flatMap((a) =>
    feet.flatMap((b) => {
      const edge = minus(b, a);
      const inwards = cross3(up, edge);
      const length = norm(inwards);
      if (length < SAME_POINT_MM) return [];
      const inside = (p: Point3) => dot3(minus(p, a), inwards) / length;
      return feet.every((foot) => inside(foot) > -SAME_POINT_MM) ? [inside(centre)] : [];
    }),
  );
  return Math.min(...margins);
}

function triples<T>(items: readonly T[]): (readonly [T, T, T])[] {
  return items.flatMap((a, i) =>
    items.slice(i + 1).flatMap((b, j) => items.slice(i + j + 2).map((c) => [a, b, c] as const)),
  );
}

function least<T>(items: readonly T[], measure: (item: T) => number): T {
  return items.reduce((best, item) => (measure(item) < measure(best) ? item : best));
}
