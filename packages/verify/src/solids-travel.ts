import { CONTACT_MM, once, onceWith } from "@dryfit/geometry";
import type { Direction, Point3 } from "@dryfit/joinery";

import { type Axis, axisOf, signOf } from "./solids-axis.ts";
import type { Mesh } from "./solids-mesh.ts";

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
export function freeTravel(moving: Mesh, still: Mesh, direction: Direction, deepest: number): Travel {
  if (passes(spanOf(moving), spanOf(still), direction, deepest)) return { distance: Infinity, at: null };
  const leading = facing(moving, direction, 1);
  const waiting = facing(still, direction, -1);
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
    : { distance: best.distance, at: inCase(direction, best.u, best.v, best.h) };
}

/** Least and most x, y, z of a mesh. */
interface Span {
  readonly min: readonly [number, number, number];
  readonly max: readonly [number, number, number];
}

const spanOf = once(({ corners }: Mesh): Span => {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  corners.forEach((value, i) => {
    const column = i % 3;
    if (value < min[column]!) min[column] = value;
    if (value > max[column]!) max[column] = value;
  });
  return { min, max };
});

/** Whether one goes by the other, or leaves it behind, whatever the facets. */
function passes(moving: Span, still: Span, direction: Direction, deepest: number): boolean {
  const axis = axisOf(direction);
  const apart = ACROSS[axis].some((across) => {
    const column = COLUMN[across];
    return moving.min[column]! > still.max[column]! || still.min[column]! > moving.max[column]!;
  });
  if (apart) return true;
  const column = COLUMN[axis];
  return signOf(direction) > 0
    ? still.max[column]! - moving.min[column]! < -deepest
    : moving.max[column]! - still.min[column]! < -deepest;
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

/** The facets that look along the way (`side` 1) or against it (−1), by their least u. */
const facing = onceWith(({ corners, facets }: Mesh, direction: Direction, side: 1 | -1): readonly Facet[] => {
  const axis = axisOf(direction);
  const sign = signOf(direction);
  const [atU, atV, atH] = [COLUMN[ACROSS[axis][0]], COLUMN[ACROSS[axis][1]], COLUMN[axis]];
  const found: Facet[] = [];
  for (let i = 0; i < facets.length; i += 3) {
    const [i0, i1, i2] = [3 * facets[i]!, 3 * facets[i + 1]!, 3 * facets[i + 2]!];
    const [au, bu, cu] = [corners[i0 + atU]!, corners[i1 + atU]!, corners[i2 + atU]!];
    const [av, bv, cv] = [corners[i0 + atV]!, corners[i1 + atV]!, corners[i2 + atV]!];
    const area2 = (bu - au) * (cv - av) - (bv - av) * (cu - au);
    if (area2 * sign * side < EDGE_ON_MM2) continue;
    const ah = sign * corners[i0 + atH]!;
    const [h1, h2] = [sign * corners[i1 + atH]! - ah, sign * corners[i2 + atH]! - ah];
    const [a, b, c]: Flat[] = [
      [au, av],
      [bu, bv],
      [cu, cv],
    ];
    found.push({
      corners: area2 > 0 ? [a!, b!, c!] : [a!, c!, b!],
      minU: Math.min(au, bu, cu),
      maxU: Math.max(au, bu, cu),
      minV: Math.min(av, bv, cv),
      maxV: Math.max(av, bv, cv),
      minH: ah + Math.min(0, h1, h2),
      maxH: ah + Math.max(0, h1, h2),
      hu: (h1 * (cv - av) - (bv - av) * h2) / area2,
      hv: ((bu - au) * h2 - h1 * (cu - au)) / area2,
      origin: [au, av, ah],
    });
  }
  return found.sort((a, b) => a.minU - b.minU);
});

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

function inCase(direction: Direction, u: number, v: number, h: number): Point3 {
  const axis = axisOf(direction);
  const [axisU, axisV] = ACROSS[axis];
  return { x: 0, y: 0, z: 0, [axisU]: u, [axisV]: v, [axis]: signOf(direction) * h };
}
