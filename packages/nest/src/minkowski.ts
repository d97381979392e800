import type { Convex } from "./convex.ts";

/** p ⊕ (−q) for convex p and q: their edges, merged by direction. */
export function minkowski(p: Convex, q: Convex): Convex {
  const [n, m] = [p.length / 2, q.length / 2];
  const low = lowest(p, 1);
  const high = lowest(q, -1);
  const out: number[] = [];
  let [i, j] = [0, 0];
  let x = p[2 * low]! - q[2 * high]!;
  let y = p[2 * low + 1]! - q[2 * high + 1]!;
  while (i < n || j < m) {
    const a = 2 * ((low + i) % n);
    const a1 = 2 * ((low + i + 1) % n);
    const b = 2 * ((high + j) % m);
    const b1 = 2 * ((high + j + 1) % m);
    const [ax, ay] = [p[a1]! - p[a]!, p[a1 + 1]! - p[a + 1]!];
    const [bx, by] = [q[b]! - q[b1]!, q[b + 1]! - q[b1 + 1]!];
    const turn = i >= n ? -1 : j >= m ? 1 : ax * by - ay * bx;
    out.push(x, y);
    // Corners are sums of corners, not of edges: no drift.
    if (turn >= 0) i++;
    if (turn <= 0) j++;
    const [u, v] = [2 * ((low + i) % n), 2 * ((high + j) % m)];
    x = p[u]! - q[v]!;
    y = p[u + 1]! - q[v + 1]!;
  }
  return new Float64Array(out);
}

/** The corner of least y (sense 1) or most y (sense −1), then of least or most x. */
function lowest(p: Convex, sense: number): number {
  let best = 0;
  for (let k = 1; k < p.length / 2; k++) {
    const dy = sense * (p[2 * k + 1]! - p[2 * best + 1]!);
    if (dy < 0 || (dy === 0 && sense * (p[2 * k]! - p[2 * best]!) < 0)) best = k;
  }
  return best;
}
