import type { Convex } from "./convex.ts";

/** Convex polygons as the half planes of their edges, flat, because they are read millions of times a second. */
export interface Sums {
  /** First edge of each sum, and one more for the end. */
  readonly first: Int32Array;
  /** Per edge: outward unit normal x, y, offset, corner x, y. */
  readonly edges: Float64Array;
}

/** Numbers per edge. */
export const STRIDE = 5;

/** Edges of no length are dropped. */
export function sumsOf(list: readonly Convex[]): Sums {
  const first = new Int32Array(list.length + 1);
  const edges = new Float64Array(list.reduce((count, sum) => count + (sum.length / 2) * STRIDE, 0));
  let end = 0;
  for (const [s, sum] of list.entries()) {
    for (let k = 0; k < sum.length; k += 2) {
      const x = sum[k]!;
      const y = sum[k + 1]!;
      const dx = sum[(k + 2) % sum.length]! - x;
      const dy = sum[(k + 3) % sum.length]! - y;
      const length = Math.hypot(dx, dy);
      if (length === 0) continue;
      edges[end] = dy / length;
      edges[end + 1] = -dx / length;
      edges[end + 2] = (dy * x - dx * y) / length;
      edges[end + 3] = x;
      edges[end + 4] = y;
      end += STRIDE;
    }
    first[s + 1] = end / STRIDE;
  }
  return { first, edges: edges.slice(0, end) };
}

/** Least x, least y, most x, most y, grown by `gap`. */
export function sumsBounds(list: readonly Convex[], gap: number): [number, number, number, number] {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const sum of list)
    for (let k = 0; k < sum.length; k += 2) {
      x0 = Math.min(x0, sum[k]!);
      x1 = Math.max(x1, sum[k]!);
      y0 = Math.min(y0, sum[k + 1]!);
      y1 = Math.max(y1, sum[k + 1]!);
    }
  return [x0 - gap, y0 - gap, x1 + gap, y1 + gap];
}

/** Signed distance to a sum's nearest edge line: exact inside, at most the true distance outside. */
export function lineDistance({ first, edges }: Sums, sum: number, x: number, y: number): number {
  let out = -Infinity;
  const last = first[sum + 1]! * STRIDE;
  for (let e = first[sum]! * STRIDE; e < last; e += STRIDE) {
    const m = edges[e]! * x + edges[e + 1]! * y - edges[e + 2]!;
    if (m > out) out = m;
  }
  return out;
}

/** Exact distance from a point outside a convex sum, whose edges are `edges[from .. to]`: corners are round. */
export function outsideDistance(edges: Float64Array, from: number, to: number, x: number, y: number): number {
  let least = Infinity;
  for (let i = from; i < to; i += STRIDE) {
    const j = i + STRIDE < to ? i + STRIDE : from;
    const px = edges[i + 3]!;
    const py = edges[i + 4]!;
    const dx = edges[j + 3]! - px;
    const dy = edges[j + 4]! - py;
    const t = Math.max(0, Math.min(1, ((x - px) * dx + (y - py) * dy) / (dx * dx + dy * dy)));
    const ex = x - px - t * dx;
    const ey = y - py - t * dy;
    least = Math.min(least, ex * ex + ey * ey);
  }
  return Math.sqrt(least);
}
