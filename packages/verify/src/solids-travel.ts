import { CONTACT_MM } from "@dryfit/geometry";
import type { Direction, Point3 } from "@dryfit/joinery";
import type { Vec3 } from "manifold-3d";
import { type Solid, scoped } from "./solids.ts";
import { type Axis, axisOf, signOf } from "./solids-axis.ts";

/** How far a solid goes before it meets another, mm, and where; Infinity and null where it never does. */
export interface Travel {
  readonly distance: number;
  readonly at: Point3 | null;
}

/**
 * How far `moving` can go in `direction` until it meets `still`; negative where it is in already.
 *
 * Exact, no steps: of every two facets that face each other and overlap when seen along the way, the
 * least distance between their planes over the overlap. Facets that only graze (their overlap thinner
 * than cut faces are apart when they meet) do not count, so sliding fits slide.
 * `deepest`: facets more than this behind each other belong to another wall and are left out.
 */
export function freeTravel(moving: Solid, still: Solid, direction: Direction, deepest: number): Travel {
  if (moving.isEmpty() || still.isEmpty()) return { distance: Number.POSITIVE_INFINITY, at: null };
  const origin = still.boundingBox().min;
  const leading = facing(moving, origin, direction, 1);
  const waiting = facing(still, origin, direction, -1).sort((a, b) => a.minU - b.minU);
  let best: { distance: number; u: number; v: number; h: number } | null = null;
  for (const a of leading) {
    for (const b of waiting) {
      if (b.minU > a.maxU) break;
      if (b.maxU < a.minU || b.maxV < a.minV || b.minV > a.maxV) continue;
      if (b.maxH - a.minH < -deepest || b.minH - a.maxH >= (best?.distance ?? Infinity)) continue;
      const overlap = clip(a.corners, b.corners);
      if (meanWidth(overlap) < CONTACT_MM / 2) continue;
      for (const [u, v] of overlap) {
        const h = heightAt(a, u, v);
        const distance = heightAt(b, u, v) - h;
        if (distance >= -deepest && distance < (best?.distance ?? Infinity)) best = { distance, u, v, h };
      }
    }
  }
  return best === null
    ? { distance: Infinity, at: null }
    : { distance: best.distance, at: inCase(origin, direction, best.u, best.v, best.h) };
}

type Flat = readonly [u: number, v: number];

/** A facet seen along the way: its corners counter-clockwise, and how far along it lies (h = hu·u + hv·v + h0). */
interface Facet {
  readonly corners: readonly Flat[];
  readonly minU: number;
  readonly maxU: number;
  readonly minV: number;
  readonly maxV: number;
  readonly minH: number;
  readonly maxH: number;
  readonly hu: number;
  readonly hv: number;
  readonly origin: readonly [u: number, v: number, h: number];
}

/** Right-handed: u × v = the axis. */
const ACROSS: Readonly<Record<Axis, readonly [Axis, Axis]>> = { x: ["y", "z"], y: ["z", "x"], z: ["x", "y"] };
const COLUMN: Readonly<Record<Axis, number>> = { x: 0, y: 1, z: 2 };

/** Square mm, seen along the way: smaller facets stand edge-on. */
const EDGE_ON_MM2 = 1e-7;

/**
 * The facets that look along the way (`side` 1) or against it (−1), seen from `origin`: the modeller gives
 * corners as float32, so they are fetched from nearby, where a step is 1e-5 mm or less.
 */
function facing(solid: Solid, origin: Vec3, direction: Direction, side: 1 | -1): Facet[] {
  const { numProp, vertProperties, triVerts } = scoped((keep) =>
    keep(solid.translate(-origin[0], -origin[1], -origin[2])).getMesh(),
  );
  const axis = axisOf(direction);
  const sign = signOf(direction);
  const [columnU, columnV, columnH] = [COLUMN[ACROSS[axis][0]], COLUMN[ACROSS[axis][1]], COLUMN[axis]];
  const corner = (vertex: number): Corner => {
    const at = vertex * numProp;
    return [
      vertProperties[at + columnU]!,
      vertProperties[at + columnV]!,
      sign * vertProperties[at + columnH]!,
    ];
  };
  const facets: Facet[] = [];
  for (let i = 0; i < triVerts.length; i += 3) {
    const [a, b, c] = [corner(triVerts[i]!), corner(triVerts[i + 1]!), corner(triVerts[i + 2]!)];
    const [u1, v1, h1] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const [u2, v2, h2] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
    const area2 = u1 * v2 - v1 * u2;
    if (area2 * sign * side < EDGE_ON_MM2) continue;
    facets.push({
      corners: area2 > 0 ? [flat(a), flat(b), flat(c)] : [flat(a), flat(c), flat(b)],
      minU: Math.min(a[0], b[0], c[0]),
      maxU: Math.max(a[0], b[0], c[0]),
      minV: Math.min(a[1], b[1], c[1]),
      maxV: Math.max(a[1], b[1], c[1]),
      minH: Math.min(a[2], b[2], c[2]),
      maxH: Math.max(a[2], b[2], c[2]),
      hu: (h1 * v2 - v1 * h2) / area2,
      hv: (u1 * h2 - h1 * u2) / area2,
      origin: a,
    });
  }
  return facets;
}

type Corner = readonly [u: number, v: number, h: number];

function flat([u, v]: Corner): Flat {
  return [u, v];
}

/** Held to the facet's own range: a facet that is nearly edge-on magnifies rounding. */
function heightAt({ hu, hv, origin, minH, maxH }: Facet, u: number, v: number): number {
  const h = origin[2] + hu * (u - origin[0]) + hv * (v - origin[1]);
  return Math.min(maxH, Math.max(minH, h));
}

/** The overlap of two convex counter-clockwise polygons (Sutherland and Hodgman, CACM 17(1), 1974). */
function clip(subject: readonly Flat[], window: readonly Flat[]): readonly Flat[] {
  let kept = subject;
  for (let i = 0; i < window.length && kept.length > 0; i++) {
    const [a, b] = [window[i]!, window[(i + 1) % window.length]!];
    const left = kept.map(([u, v]) => (b[0] - a[0]) * (v - a[1]) - (b[1] - a[1]) * (u - a[0]));
    kept = kept.flatMap((here, k) => {
      const next = (k + 1) % kept.length;
      const [l, m] = [left[k]!, left[next]!];
      const crossing = l < 0 !== m < 0 ? [along(here, kept[next]!, l / (l - m))] : [];
      return l < 0 ? crossing : [here, ...crossing];
    });
  }
  return kept;
}

function along(a: Flat, b: Flat, t: number): Flat {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}

/** Area over the longest extent: 0 for a graze. */
function meanWidth(polygon: readonly Flat[]): number {
  if (polygon.length < 3) return 0;
  let area2 = 0;
  let longest = 0;
  const first = polygon[0]!;
  for (let i = 1; i < polygon.length; i++) {
    const [here, next] = [polygon[i]!, polygon[(i + 1) % polygon.length]!];
    area2 += (here[0] - first[0]) * (next[1] - first[1]) - (here[1] - first[1]) * (next[0] - first[0]);
    longest = Math.max(longest, Math.hypot(here[0] - first[0], here[1] - first[1]));
  }
  return longest === 0 ? 0 : area2 / 2 / longest;
}

function inCase([x, y, z]: Vec3, direction: Direction, u: number, v: number, h: number): Point3 {
  const axis = axisOf(direction);
  const [axisU, axisV] = ACROSS[axis];
  const from = { x: 0, y: 0, z: 0, [axisU]: u, [axisV]: v, [axis]: signOf(direction) * h };
  return { x: x + from.x, y: y + from.y, z: z + from.z };
}
