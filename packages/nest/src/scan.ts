import type { Polygon } from "./ring.ts";

/**
 * Do two polygons share wood, and not just an edge? Both are cut into slabs between neighbouring corner and crossing
 * heights; inside a slab nothing changes, so its middle line tells.
 *
 * `slack`: slabs and runs thinner than this are contact, not overlap, mm.
 */
export function shareWood(a: Polygon, b: Polygon, slack: number): boolean {
  const [low, high] = commonHeights(a, b);
  if (high - low <= slack) return false;
  const heights = [low, high];
  for (const ring of [...a, ...b]) {
    for (let i = 1; i < ring.length; i += 2) if (ring[i]! > low && ring[i]! < high) heights.push(ring[i]!);
  }
  addCrossings(a, b, low, high, heights);
  heights.sort((p, q) => p - q);
  for (let i = 1; i < heights.length; i++) {
    const [y0, y1] = [heights[i - 1]!, heights[i]!];
    if (y1 - y0 > slack && runsMeet(runsAt(a, (y0 + y1) / 2), runsAt(b, (y0 + y1) / 2), slack)) return true;
  }
  return false;
}

/** The stretches of a polygon on the line y = at, as from, to, from, to … */
export function runsAt(polygon: Polygon, at: number): number[] {
  const xs: number[] = [];
  for (const ring of polygon) {
    const n = ring.length;
    for (let i = 0; i < n; i += 2) {
      const j = (i + 2) % n;
      const [y0, y1] = [ring[i + 1]!, ring[j + 1]!];
      if (y0 > at !== y1 > at) xs.push(ring[i]! + ((at - y0) / (y1 - y0)) * (ring[j]! - ring[i]!));
    }
  }
  return xs.sort((p, q) => p - q);
}

function runsMeet(a: number[], b: number[], slack: number): boolean {
  for (let i = 0; i + 1 < a.length; i += 2)
    for (let j = 0; j + 1 < b.length; j += 2)
      if (Math.min(a[i + 1]!, b[j + 1]!) - Math.max(a[i]!, b[j]!) > slack) return true;
  return false;
}

function commonHeights(a: Polygon, b: Polygon): [number, number] {
  const [la, ha] = heightsOf(a);
  const [lb, hb] = heightsOf(b);
  return [Math.max(la, lb), Math.min(ha, hb)];
}

function heightsOf(polygon: Polygon): [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (const ring of polygon)
    for (let i = 1; i < ring.length; i += 2) {
      low = Math.min(low, ring[i]!);
      high = Math.max(high, ring[i]!);
    }
  return [low, high];
}

function addCrossings(a: Polygon, b: Polygon, low: number, high: number, heights: number[]): void {
  for (const p of a)
    for (let i = 0; i < p.length; i += 2) {
      const [px, py] = [p[i]!, p[i + 1]!];
      const [dx, dy] = [p[(i + 2) % p.length]! - px, p[(i + 3) % p.length]! - py];
      if (Math.max(py, py + dy) < low || Math.min(py, py + dy) > high) continue;
      for (const q of b)
        for (let j = 0; j < q.length; j += 2) {
          const [qx, qy] = [q[j]!, q[j + 1]!];
          const [ex, ey] = [q[(j + 2) % q.length]! - qx, q[(j + 3) % q.length]! - qy];
          const turn = dx * ey - dy * ex;
          if (turn === 0) continue;
          const t = ((qx - px) * ey - (qy - py) * ex) / turn;
          const u = ((qx - px) * dy - (qy - py) * dx) / turn;
          if (t > 0 && t < 1 && u > 0 && u < 1) heights.push(py + t * dy);
        }
    }
}
